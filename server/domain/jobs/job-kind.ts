/** What a crew is sent out for. */
export const JOB_KINDS = [
  'set a bank',
  'change out a bank',
  'remove a bank',
  'take a bank out of service',
  'return a bank to service',
  'change settings',
  'retrofit round',
  'inspection',
] as const
export type JobKind = (typeof JOB_KINDS)[number]
