/** Hands a file to the browser, which saves it where it saves downloads. */
export function handOver(file: Blob, fileName: string): void {
  const address = URL.createObjectURL(file)
  const link = document.createElement('a')
  link.href = address
  link.download = fileName
  link.click()
  // The browser has begun to read by the next turn.
  window.setTimeout(() => URL.revokeObjectURL(address), 0)
}
