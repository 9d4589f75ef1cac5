import { describe, expect, it } from 'vitest'
import { boardColumns, boardLine } from '../../../web/supervisor/board/board-columns.ts'
import { jobSpots } from '../../../web/supervisor/map/job-spots.ts'
import { supervisorView } from '../../../web/supervisor/supervisor-view.ts'
import { aJob } from './a-job.ts'

const TODAY = '2026-11-28'

describe('the supervisor’s board', () => {
  it('has what came back first, then the states in their order, and no empty column', () => {
    const columns = boardColumns(
      [
        aJob({ id: 'a', state: 'closed' }),
        aJob({ id: 'b', state: 'drafted' }),
        aJob({ id: 'c', state: 'returned' }),
      ],
      TODAY,
    )
    expect(columns.map(({ state }) => state)).toEqual(['returned', 'drafted', 'closed'])
  })

  it('puts late ones first in a column and counts them', () => {
    const [column] = boardColumns(
      [aJob({ id: 'in time', dueOn: '2026-12-24' }), aJob({ id: 'late', dueOn: '2026-11-01' })],
      TODAY,
    )
    expect(column?.late).toBe(1)
    expect(column?.jobs.map(({ id }) => id)).toEqual(['late', 'in time'])
  })

  it('says in its first line what is returned, late, and waits for the supervisor', () => {
    const jobs = [
      aJob({ state: 'returned' }),
      aJob({ state: 'issued', dueOn: '2026-11-01' }),
      aJob({ state: 'drafted' }),
      aJob({ state: 'closed', dueOn: '2026-11-01' }),
    ]
    expect(boardLine(jobs, TODAY)).toBe(
      '3 jobs are open: 1 returned, 1 late; 1 waits for the supervisor.',
    )
    expect(boardLine([], TODAY)).toBe('No job is open.')
  })
})

describe('poles of open jobs on the map', () => {
  const poles = [
    { id: 'W-1', at: [-106, 42] as [number, number] },
    { id: 'W-2', at: [-106.1, 42] as [number, number] },
  ]

  it('has one mark for a pole of two jobs, that of the late one', () => {
    const { features } = jobSpots(
      poles,
      [
        aJob({ id: 'returned', state: 'returned' }),
        aJob({ id: 'late', state: 'approved', dueOn: '2026-11-01', title: 'Covers' }),
      ],
      TODAY,
    )
    expect(features.map(({ properties }) => properties)).toEqual([
      {
        job: 'late',
        pole: 'W-1',
        state: 'approved',
        late: true,
        jobs: 2,
        label: 'Covers, late, and 1 more',
      },
    ])
  })

  it('marks no closed job and no pole that the feeder no longer has', () => {
    const jobs = [aJob({ state: 'closed' }), aJob({ id: 'other', poles: ['gone'] })]
    expect(jobSpots(poles, jobs, TODAY).features).toEqual([])
  })
})

describe('the address of the supervisor’s desk', () => {
  it('opens the board where it says nothing that the desk knows', () => {
    expect(supervisorView(null)).toEqual({ part: 'board' })
    expect(supervisorView('year~x')).toEqual({ part: 'board' })
  })

  it('opens a job and an order of steps', () => {
    expect(supervisorView('job~a:b')).toEqual({ part: 'job', jobId: 'a:b' })
    expect(supervisorView('orders~set-bank')).toEqual({ part: 'order', sequenceId: 'set-bank' })
    expect(supervisorView('orders')).toEqual({ part: 'orders' })
  })
})
