import type { Locator, Page } from 'playwright-core'
import type { JobEntry, StepDone } from '#domain/jobs/job-entry.ts'

/** The step that stands open on the page. */
export const stepOf = (page: Page): Locator =>
  page.getByRole('region', { name: 'Step', exact: true })

/** "Step 7 of 31, B phase". */
export async function placeOf(page: Page): Promise<string> {
  return (await stepOf(page).getByRole('heading', { level: 2 }).textContent()) ?? ''
}

export function isStepDone(entry: JobEntry): entry is StepDone {
  return entry.kind === 'step done'
}

/** Passes one step after the other on the page, as these entries say. */
export async function passSteps(page: Page, entries: readonly StepDone[]): Promise<void> {
  for (const entry of entries) {
    const before = await placeOf(page)
    await fillStep(page, entry)
    await stepOf(page).getByRole('button', { name: 'Done, next step' }).click()
    await page.waitForFunction(
      (was) => document.querySelector('.step .step-place')?.textContent !== was,
      before,
    )
  }
}

/** Fills in all that the open step asks for, and signs it. */
export async function fillStep(page: Page, { values, signedBy, remark }: StepDone): Promise<void> {
  const step = stepOf(page)
  for (const [askId, value] of Object.entries(values)) {
    const asked = step.locator(`[data-ask="${askId}"]`)
    if (typeof value === 'boolean') {
      await asked.getByRole('button', { name: value ? 'Yes' : 'No', exact: true }).click()
    } else if ((await asked.getAttribute('data-kind')) === 'choice') {
      await asked.getByRole('button', { name: String(value), exact: true }).click()
    } else {
      await asked.getByRole('textbox').fill(String(value))
    }
  }
  const asksForRemark = step.getByLabel('Remark: why it is right to go on')
  if (remark && (await asksForRemark.count()) > 0) await asksForRemark.fill(remark)
  for (const name of signedBy) await sign(step, name)
}

/** The device knows a name from the second time on. */
async function sign(step: Locator, name: string): Promise<void> {
  const known = step.getByRole('button', { name, exact: true })
  if ((await known.count()) > 0) {
    await known.click()
    return
  }
  const typed = step.getByLabel('Name of somebody of the crew')
  if ((await typed.count()) === 0) await step.getByRole('button', { name: 'Another name' }).click()
  await typed.fill(name)
  await step.getByRole('button', { name: 'Add the name' }).click()
}
