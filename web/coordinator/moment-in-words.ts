const FORMAT = new Intl.DateTimeFormat('en-CA', {
  year: 'numeric',
  month: '2-digit',
  day: '2-digit',
  hour: '2-digit',
  minute: '2-digit',
  hour12: false,
})

/** An instant in the person's own time zone: "2026-11-25, 14:03". */
export function momentInWords(instant: string): string {
  return FORMAT.format(new Date(instant))
}
