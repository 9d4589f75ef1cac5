/**
 * A number as people type it: "7,215.5", "−3", "12,5" where a keypad has only the comma. Null for
 * everything else, also for empty text.
 */
export function numberOfText(text: string): number | null {
  const plain = text.replace(/[\s\u00a0]/g, '').replace(/[−–]/g, '-')
  if (plain === '') return null
  const written = /^[-+]?\d{1,3}(,\d{3})+(\.\d+)?$/.test(plain)
    ? plain.replaceAll(',', '')
    : plain.replace(/^([-+]?\d*),(\d+)$/, '$1.$2')
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(written) ? Number(written) : null
}
