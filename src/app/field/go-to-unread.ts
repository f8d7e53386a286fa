/** Marks the input of a field in which something stands that can not be read. */
export const unreadMark = 'data-unread'

/**
 * Goes to the first field of a form, or of a part of a sheet, in which something stands that can not be read, so that it says
 * why: what is unread must not be left out in silence.
 *
 * @returns whether there is one: then nothing is to be written down yet
 */
export function goToUnread(form: HTMLElement): boolean {
  const field = form.querySelector<HTMLInputElement>(`[${unreadMark}]`)
  if (field === null) return false
  // A field says what is wrong with it once it has been left.
  field.focus()
  field.blur()
  field.focus()
  return true
}
