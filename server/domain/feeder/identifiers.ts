import { z } from 'zod'

/** Ids are stable, unique within their layer, and safe in a file name and an address. */
export const Id = z
  .string()
  .regex(
    /^[A-Za-z0-9][A-Za-z0-9._:-]{0,63}$/,
    'must be 1 to 64 letters, digits, dots, colons, hyphens or underscores',
  )

/** Calendar date without a time zone, as ISO 8601 writes it. */
export const IsoDate = z.iso.date()
