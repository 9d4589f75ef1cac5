/** An open job as a desk's part of the address has it: "job~<id>"; ids hold no "~". */
export const viewOfJob = (jobId: string): string => `job~${jobId}`

export function jobIdOfView(view: string | null): string | null {
  const [part, id] = view?.split('~') ?? []
  return part === 'job' && id ? id : null
}
