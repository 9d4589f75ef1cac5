import { describe, expect, it } from 'vitest'
import type { Streams } from '../../server/cli/command.ts'
import { ProgressLine } from '../../server/cli/progress-line.ts'
import { sparkline } from '../../server/cli/sparkline.ts'
import { left, right, textTable } from '../../server/cli/text-table.ts'

describe('a sparkline', () => {
  const frame = { from: 0, to: 8, lengthM: 100, width: 11 }

  it('falls evenly where the voltage does', () => {
    const samples = [
      { distanceM: 0, value: 8 },
      { distanceM: 100, value: 0 },
    ]
    expect(sparkline(samples, frame)).toBe('██▇▆▅▅▄▃▂▁▁')
  })

  it('jumps at a regulator, whose two sides stand at one distance', () => {
    const samples = [
      { distanceM: 0, value: 2 },
      { distanceM: 50, value: 2 },
      { distanceM: 50, value: 6 },
      { distanceM: 100, value: 6 },
    ]
    expect(sparkline(samples, frame)).toBe('▃▃▃▃▃▇▇▇▇▇▇')
  })

  it('shows nothing where the phase is not there', () => {
    const samples = [
      { distanceM: 0, value: 5 },
      { distanceM: 40, value: 5 },
    ]
    expect(sparkline(samples, frame)).toBe('▆▆▆▆▆······')
  })
})

describe('a text table', () => {
  it('sets words left and figures right', () => {
    const rows = [
      ['P-12', '4.5'],
      ['P-3', '120.0'],
    ]
    expect(textTable([left('pole'), right('V')], rows)).toBe(
      ['pole      V', 'P-12    4.5', 'P-3   120.0'].join('\n'),
    )
  })
})

describe('the progress of a search', () => {
  const recorded = (isErrTerminal: boolean) => {
    const drawn: string[] = []
    const streams: Streams = {
      out: () => undefined,
      err: () => undefined,
      redraw: (text) => drawn.push(text),
      isErrTerminal,
    }
    return { drawn, line: new ProgressLine(streams) }
  }

  it('is drawn over itself on a terminal and wiped at the end', () => {
    const { drawn, line } = recorded(true)
    line.show(50, 213, 'Trying poles')
    line.show(50, 213, 'Trying poles')
    line.clear()
    const shown = 'Trying poles: 50 of 213 (23 %)'
    expect(drawn).toEqual([shown, ' '.repeat(shown.length), ''])
  })

  it('stays out of a file or a pipe', () => {
    const { drawn, line } = recorded(false)
    line.show(50, 213, 'Trying poles')
    line.clear()
    expect(drawn).toEqual([])
  })
})
