import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'

/** What a crew touches is no lower than this, CSS pixels; common practice, no source. */
const LEAST_TARGET_PX = 48

/** Texts of a part of the page under 7:1, the enhanced contrast of WCAG 2.2 (criterion 1.4.6). */
export async function lowContrast(page: Page, part: string): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .include(part)
    .withRules(['color-contrast-enhanced'])
    .analyze()
  return violations.flatMap(({ nodes }) => nodes.map(({ html }) => html))
}

/** What can be touched in a part of the page and is too low for a glove. */
export function smallTargets(page: Page, part: string): Promise<string[]> {
  return page.evaluate(
    ([selector, leastPx]) =>
      [
        ...document.querySelectorAll(
          `:is(${selector}) :is(button, summary, select, textarea, label:not([for]), input:not([type=file], [type=radio], [type=checkbox]))`,
        ),
      ].flatMap((element) => {
        const { height } = element.getBoundingClientRect()
        const isTooLow = height > 0 && height < leastPx - 0.5
        return isTooLow ? [`${Math.round(height)} px: ${element.outerHTML}`] : []
      }),
    [part, LEAST_TARGET_PX] as const,
  )
}

/** How far a part of the page is wider than its room, CSS pixels. */
export function overflowPx(page: Page, part: string): Promise<number> {
  return page.evaluate((selector) => {
    const all = [...document.querySelectorAll(selector)]
    return Math.max(0, ...all.map((each) => each.scrollWidth - each.clientWidth))
  }, part)
}
