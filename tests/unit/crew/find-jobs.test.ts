import { describe, expect, it } from 'vitest'
import type { JobSummary } from '#contract/jobs.ts'
import { findJobs } from '../../../web/crew/jobs/find-jobs.ts'

const job = (id: string, title: string, state = 'issued', crew = ''): JobSummary =>
  ({ id, title, state, crew }) as JobSummary

describe('a job in the search box', () => {
  const jobs = [
    job('j-1', 'Change out the bank at the creek'),
    job('j-2', 'Covers', 'closed'),
    job('j-3', 'Covers', 'issued', 'North truck'),
  ]

  it('is found by a scrap of its title or of its crew, and not once it is closed', () => {
    expect(findJobs(jobs, 'CREEK').map(({ id }) => id)).toEqual(['j-1'])
    expect(findJobs(jobs, 'cover').map(({ id }) => id)).toEqual(['j-3'])
    expect(findJobs(jobs, 'north').map(({ id }) => id)).toEqual(['j-3'])
  })

  it('is not looked for by one letter or by none', () => {
    expect(findJobs(jobs, ' ')).toEqual([])
    expect(findJobs(jobs, 'c')).toEqual([])
  })
})
