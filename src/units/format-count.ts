/** `1 layer`, `2 layers`, `1,000 copies`. @param several - the word for any number but one */
export const formatCount = (count: number, one: string, several = `${one}s`): string =>
  `${count.toLocaleString('en-GB')} ${count === 1 ? one : several}`
