/**
 * One text for one value, whatever the order of its members: RFC 8785, JSON Canonicalization
 * Scheme. Members stand in the order of their UTF-16 code units (section 3.2.3), with no space
 * between; numbers and strings are as ECMAScript writes them (sections 3.2.2.2 and 3.2.2.3).
 * What JSON cannot hold is left out of objects and is null elsewhere, as in `JSON.stringify`.
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null'
  const members = Object.entries(value)
    .filter(([, member]) => member !== undefined)
    .sort(([left], [right]) => (left < right ? -1 : 1))
    .map(([name, member]) => `${JSON.stringify(name)}:${canonicalJson(member)}`)
  return `{${members.join(',')}}`
}
