import { useEffect } from 'react'
import { useLocation } from 'wouter'

/**
 * Takes a file that is dropped anywhere on Check; on other sheets nothing is done with one. Left to the
 * browser it would be opened in the place of the app, and what was typed would be gone.
 *
 * @param isOut - the log-in lies over the sheets
 */
export function useDroppedPrint(take: (file: File) => void, isOut: boolean): void {
  const [path] = useLocation()
  const takes = path === '/' && !isOut
  useEffect(() => {
    const onFiles = (event: DragEvent): void => {
      // A zone of its own had it already.
      if (event.defaultPrevented || event.dataTransfer?.types.includes('Files') !== true) return
      event.preventDefault()
      const [file] = event.dataTransfer.files
      if (!takes) event.dataTransfer.dropEffect = 'none'
      else if (event.type === 'drop' && file !== undefined) take(file)
    }
    addEventListener('dragover', onFiles)
    addEventListener('drop', onFiles)
    return () => {
      removeEventListener('dragover', onFiles)
      removeEventListener('drop', onFiles)
    }
  }, [take, takes])
}
