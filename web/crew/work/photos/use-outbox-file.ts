import { useEffect, useState } from 'react'
import { fileInOutbox } from '../../../api/outbox.ts'

/** The file that an item of the outbox carries; null as long as it is not read, or has none. */
export function useOutboxFile(itemId: string | null): Blob | null {
  const [file, setFile] = useState<Blob | null>(null)
  useEffect(() => {
    let isGone = false
    if (itemId === null) return
    void fileInOutbox(itemId).then((read) => {
      if (!isGone) setFile(read)
    })
    return () => {
      isGone = true
      setFile(null)
    }
  }, [itemId])
  return file
}
