import { cpus } from 'node:os'
import { fileURLToPath } from 'node:url'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { readFeederFolder } from '../../server/layer-files/feeder-folder.ts'
import { benchPoleTops } from './pole-top-bench.ts'
import { benchAgainstObjects, benchPowerFlow } from './power-flow-bench.ts'
import { benchSettings, benchSiting } from './siting-bench.ts'
import { syntheticFeeder } from './synthetic-feeder.ts'

const DEMO_FEEDERS = ['skillet', 'thimble']

async function demoFeeder(name: string): Promise<Feeder> {
  const folder = fileURLToPath(new URL(`../../geodata/demo/${name}`, import.meta.url))
  const { feeder, findings } = await readFeederFolder(folder)
  if (!feeder) throw new Error(`${folder} has errors: ${findings[0]?.what}`)
  return feeder
}

console.log(
  `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}`,
)
const demo = await Promise.all(DEMO_FEEDERS.map(demoFeeder))
const thousand = syntheticFeeder(1_000)
const synthetic = [thousand, syntheticFeeder(10_000), syntheticFeeder(100_000)]
benchPoleTops(demo)
benchPowerFlow([...demo, ...synthetic])
benchAgainstObjects(synthetic)
benchSiting([
  ...demo.map((feeder) => ({ feeder, banks: 1 as const })),
  ...demo.map((feeder) => ({ feeder, banks: 2 as const })),
  ...synthetic.map((feeder) => ({ feeder, banks: 1 as const })),
])
benchSettings(demo)
