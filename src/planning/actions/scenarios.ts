import { decisionsInForce } from '../../greenhouse/decisionInForce.ts';
import { cutDecision } from '../orders/cutDecision.ts';
import { cutScenarios } from './cutScenarios.ts';
import { lightScenarios, moveScenario } from './lightScenarios.ts';
import { possible, type ScenarioQuestion, type Scenarios } from './scenario.ts';
import { spaceScenarios } from './spaceScenarios.ts';
import { waterScenarios } from './waterScenarios.ts';

/** Everything that could be done with a lot, doing nothing first; and what could not be done, with the reason. */
export function scenariosOf(question: ScenarioQuestion): Scenarios {
  const { view } = question.lot;
  const parts = [
    possible({ action: 'none', title: 'Do nothing more', doing: 'As planned.', order: { do: 'nothing' }, leftOut: [], plants: view.plants, ...cutDecision(decisionsInForce(question.state).get(view.lot)) }),
    lightScenarios(question), moveScenario(question), cutScenarios(question), spaceScenarios(question), waterScenarios(question),
    possible({
      action: 'discard', title: 'Discard the lot', order: { do: 'discard' }, plants: 0, plantsOut: view.plants, doing: `All ${view.plants} plants are cleared tomorrow: ${view.basins.length} basins are free for the next lot.`,
      leftOut: ['Orders that may still come are not counted.', 'What another lot would earn in the basins it frees is not counted: the sowing page says what one more basin is worth.'],
    }),
  ];
  return { possible: parts.flatMap((part) => part.possible), notPossible: parts.flatMap((part) => part.notPossible) };
}
