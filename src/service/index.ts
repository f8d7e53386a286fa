export type { HandedIn } from './handed-in.ts'
