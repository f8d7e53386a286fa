import { whenNothingIsRead } from '../reading/reading-lock.ts'

/** From the page's beginning, ms: to keep its files takes as long as to show it, and a print may come first. */
const later = 4000

/**
 * Has the browser keep the app's files, where it may: on loopback and https. What fails here only means
 * that the app does not open without its server.
 */
export function registerShell(): void {
  if (!isSecureContext || !('serviceWorker' in navigator)) return
  setTimeout(() => {
    whenNothingIsRead(() => navigator.serviceWorker.register('/service-worker.js')).catch(
      (error: unknown) => {
        console.warn('The app can not be kept for use without its server.', error)
      },
    )
  }, later)
}
