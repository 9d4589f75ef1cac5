const KB = 1024
const MB = 1024 * KB

/** Size of a file: "640 bytes", "84 kB", "2.4 MB", "25 MB". */
export function sizeInWords(sizeBytes: number): string {
  if (sizeBytes < KB) return `${sizeBytes} bytes`
  if (sizeBytes < MB) return `${Math.round(sizeBytes / KB)} kB`
  return `${(sizeBytes / MB).toFixed(1).replace('.0', '')} MB`
}
