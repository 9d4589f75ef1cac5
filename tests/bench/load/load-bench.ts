import { cpus } from 'node:os'
import { parseArgs } from 'node:util'
import { type Kind, startLoadedServer } from './loaded-server.ts'
import type { Times } from './percentiles.ts'
import { type Measured, simulatePeople } from './simulated-people.ts'

const HELP = `Usage: npm run bench:load -- [--minutes <number>] [--people <n,n>] [--databases <kind,kind>]

  --minutes    time of all runs together; 10 when left out
  --people     simulated people, one run for each number; 50,200 when left out
  --databases  sqlite, postgres or both; both when left out`

const KINDS: readonly Kind[] = ['sqlite', 'postgres']
const MEMORY_EVERY_MS = 5000

interface Row {
  readonly kind: Kind
  readonly people: number
  readonly measured: Measured
}

async function measureOnce(kind: Kind, people: number, seconds: number): Promise<Row> {
  const server = await startLoadedServer(kind)
  const memoryMb = [server.memoryMb()]
  const timer = setInterval(() => memoryMb.push(server.memoryMb()), MEMORY_EVERY_MS)
  try {
    const measured = await simulatePeople({ url: server.url, people, seconds })
    print(kind, people, seconds, measured, memoryMb)
    return { kind, people, measured }
  } finally {
    clearInterval(timer)
    await server.stop()
  }
}

function print(
  kind: Kind,
  people: number,
  seconds: number,
  { times, changesTold, studyS }: Measured,
  memoryMb: readonly number[],
): void {
  console.log(`\n${people} people on ${kind}, ${Math.round(seconds)} s`)
  console.log('kind          count   p50 ms   p95 ms   p99 ms   errors')
  for (const [name, each] of times) console.log(rowOf(name, each))
  console.log(`changes told to streams: ${changesTold}; siting study: ${studyS.toFixed(1)} s`)
  console.log(`memory MB over time: ${memoryMb.map((mb) => mb.toFixed(0)).join(' ')}`)
}

function rowOf(name: string, times: Times): string {
  const figures = [0.5, 0.95, 0.99].map((share) => times.at(share).toFixed(1).padStart(8))
  return `${name.padEnd(10)} ${String(times.count).padStart(8)} ${figures.join(' ')} ${String(times.errors).padStart(8)}`
}

/** How the time of reading grows from the fewest to the most people, for each database. */
function printRatios(rows: readonly Row[]): void {
  for (const kind of KINDS) {
    const own = rows.filter((row) => row.kind === kind)
    const [few, many] = [own[0], own.at(-1)]
    if (!few || !many || few === many) continue
    const ratio = (name: string) =>
      (many.measured.times.get(name)?.at(0.95) ?? 0) / (few.measured.times.get(name)?.at(0.95) ?? 1)
    const words = [...many.measured.times.keys()].map((name) => `${name} ${ratio(name).toFixed(1)}`)
    console.log(`\n${kind}: p95 with ${many.people} people to ${few.people}: ${words.join(', ')}`)
  }
}

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '10' },
    people: { type: 'string', default: '50,200' },
    databases: { type: 'string', default: KINDS.join(',') },
    help: { type: 'boolean', default: false },
  },
})
if (values.help) console.log(HELP)
else {
  const people = values.people.split(',').map(Number)
  const kinds = KINDS.filter((kind) => values.databases.split(',').includes(kind))
  const seconds = (Number(values.minutes) * 60) / (people.length * kinds.length)
  if (!(seconds >= 1) || people.some((count) => !Number.isInteger(count) || count < 1)) {
    throw new Error(HELP)
  }
  const { length } = cpus()
  console.log(`Client and server share ${length} cores of this machine, ${process.version}.`)
  const rows: Row[] = []
  for (const kind of kinds) {
    for (const count of people) rows.push(await measureOnce(kind, count, seconds))
  }
  printRatios(rows)
}
