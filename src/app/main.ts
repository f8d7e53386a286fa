import { joinedApi } from './api/joined-api.ts'
import { beginApp } from './begin-app.tsx'

beginApp(joinedApi())
