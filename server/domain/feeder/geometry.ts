import { z } from 'zod'

/** Longitude and latitude in degrees, WGS 84 (RFC 7946, section 4). */
export const Position = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)])
export type Position = z.infer<typeof Position>

/** A line of at least two positions. */
export const Path = z.array(Position).min(2)
export type Path = z.infer<typeof Path>

/** A polygon: outer ring first, then holes; each ring closed (RFC 7946, section 3.1.6). */
export const Area = z.array(z.array(Position).min(4)).min(1)
export type Area = z.infer<typeof Area>
