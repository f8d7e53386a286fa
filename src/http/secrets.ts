const hex = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')

/** 256 random bits, as text. */
export const newSecret = (): string => hex(crypto.getRandomValues(new Uint8Array(32)))

/** SHA-256 of a secret: what is kept of one that can not be guessed. */
export const digestOf = async (secret: string): Promise<string> =>
  hex(new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(secret))))
