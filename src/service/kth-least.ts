/**
 * The key that `k` others do not exceed; the keys are moved about.
 *
 * @param k - place in ascending order, from 0; below the number of keys
 * @see C. A. R. Hoare, Algorithm 65: Find, Commun. ACM 4 (1961) 321–322, from memory
 */
export const kthLeast = (keys: Float64Array, k: number): number => {
  let low = 0
  let high = keys.length - 1
  while (low < high) {
    const pivot = keys[(low + high) >> 1]!
    let up = low
    let down = high
    while (up <= down) {
      while (keys[up]! < pivot) up++
      while (keys[down]! > pivot) down--
      if (up > down) break
      const moved = keys[up]!
      keys[up++] = keys[down]!
      keys[down--] = moved
    }
    if (k <= down) high = down
    else if (k >= up) low = up
    else break
  }
  return keys[k]!
}
