import { answerCalls } from './answer-calls.ts'
import { birdFunctions } from './bird-functions.ts'

answerCalls(birdFunctions)
