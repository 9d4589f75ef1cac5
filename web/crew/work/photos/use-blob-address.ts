import { useEffect, useState } from 'react'

/** An address under which this page alone can show a file of the device; null until there is one. */
export function useBlobAddress(blob: Blob | null): string | null {
  const [address, setAddress] = useState<string | null>(null)
  useEffect(() => {
    if (!blob) return
    const made = URL.createObjectURL(blob)
    setAddress(made)
    return () => {
      setAddress(null)
      URL.revokeObjectURL(made)
    }
  }, [blob])
  return address
}
