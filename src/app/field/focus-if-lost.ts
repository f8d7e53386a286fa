/**
 * Gives the keys to an element where what had them is gone, or was only a place to wait at. Who is at work
 * in a field goes on there.
 */
export const focusIfLost = (element: HTMLElement | null): void => {
  const active = document.activeElement
  if (active instanceof HTMLElement && active.tabIndex >= 0) return
  element?.focus({ preventScroll: true })
}
