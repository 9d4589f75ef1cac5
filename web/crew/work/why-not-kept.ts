/** Why the device did not keep what was entered, as sentences; empty where it did. */
export async function whyNotKept(entered: Promise<unknown>): Promise<string[]> {
  try {
    await entered
    return []
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error)
    return [`The device did not keep it, so it is not entered: ${said}`]
  }
}
