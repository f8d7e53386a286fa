import { joinedApi } from './api/joined-api.ts'
import { beginApp } from './begin-app.tsx'
import { registerShell } from './offline/register-shell.ts'

registerShell()
beginApp(joinedApi())
