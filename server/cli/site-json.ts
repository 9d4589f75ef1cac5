import type { SiteResult } from '#domain/siting/site-result.ts'

/** The answer for a program; its form is written in the command's help and kept stable. */
export function siteJson(result: SiteResult): unknown {
  const { feeder, before, proposals, excluded, bypassed, notes, tried, proof } = result
  return { feeder, before, proposals, excluded, bypassed, notes, tried, proof }
}
