/**
 * Has the browser keep the app's files, where it may: on loopback and https. What fails here only means
 * that the app does not open without its server.
 */
export function registerShell(): void {
  if (!isSecureContext || !('serviceWorker' in navigator)) return
  navigator.serviceWorker.register('/service-worker.js').catch((error: unknown) => {
    console.warn('The app can not be kept for use without its server.', error)
  })
}
