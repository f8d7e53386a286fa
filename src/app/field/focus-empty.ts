/** Goes to the first field of a form in which nothing stands yet. */
export const focusEmpty = (form: HTMLFormElement): void =>
  [...form.querySelectorAll<HTMLInputElement>('input:not([type=radio], [type=checkbox])')]
    .find(({ value }) => value.trim() === '')
    ?.focus()
