import { fileFault } from '../../../record/file-fault.ts'

/** Why a chosen picture is not taken, in plain words, or null. Reports are attached at the desk. */
export function photoFault(file: Pick<File, 'name' | 'type' | 'size'>): string | null {
  if (file.type === 'application/pdf') {
    return `${file.name} is a report, not a photo. Attach it to the pole at a desk.`
  }
  return fileFault(file)
}
