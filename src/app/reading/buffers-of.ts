/** The buffers of all typed arrays in a value made of plain objects and arrays, each once. */
export function buffersOf(value: unknown): ArrayBuffer[] {
  const found = new Set<ArrayBuffer>()
  const visit = (part: unknown): void => {
    if (ArrayBuffer.isView(part)) {
      if (part.buffer instanceof ArrayBuffer) found.add(part.buffer)
    } else if (Array.isArray(part)) part.forEach(visit)
    else if (typeof part === 'object' && part !== null) Object.values(part).forEach(visit)
  }
  visit(value)
  return [...found]
}
