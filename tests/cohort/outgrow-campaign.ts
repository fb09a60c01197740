import { heldOutLimbs, tunedLimbs } from './limb-shape';
import { backtestBerkeley, backtestMadeUp } from './outgrow-backtest';
import { printReliability, reliabilityOf } from './reliability';

/** Stated chances of outgrowing at length, on seeds of its own. Prints the tables; nothing here passes or fails. */
export function outgrowCampaign(children: number): void {
  printReliability('Limbs the defaults were looked at with, 30 to 180 days on', reliabilityOf(backtestMadeUp(tunedLimbs, children, 9101)));
  printReliability('Limbs that were never tuned on, 30 to 180 days on', reliabilityOf(backtestMadeUp(heldOutLimbs, children, 9102)));
  printReliability('Berkeley Guidance Study, calf, a year on', reliabilityOf(backtestBerkeley()));
}
