export type { Appended, PrintHeading, Store } from './store.ts'
