import type { CrewRules } from "../../answers/index.ts";
import type { Odds } from "../../plan/index.ts";

/**
 * How a simulated day is played. The crew keeps the plan's order and takes what comes:
 *
 * - **O1** Every task takes a drawn time, whole seconds, rounded up; every crew member's work rate in it is the planned one times a
 *   drawn factor, and one factor holds for their egress, ingress, walking and waiting on an EVA. Parts of what is drawn are
 *   common to the day and to a crew member's EVA (`Days`).
 * - **O2** A start that the planner fixed is never brought forward. A late start moves what follows only as far as it must.
 * - **O3** A task starts when all of its crew have walked there, its equipment is free, the least lags after what is done have passed,
 *   what keeps the crew together lets it, and a window is open that is still long enough for the likely time. Nothing waits for what
 *   is planned after it. Where a lag runs back from the end of work that is under way, its likely end is reckoned with until it ends.
 *   Who is done before a least lag to the end has passed stays at work until it has. A lag that runs from work planned later is reckoned
 *   with as that is planned, at its likely time, and nobody waits for it beyond their own planned start or end.
 * - **O4** A task is missed, and its crew go on to their next one, when a task that it needs was missed, no such window is left, a
 *   greatest lag is over, or (turn-back) when after its likely time and the walk home at the pace known by then the
 *   EVA would close too late or a suit would be below a reserve (where reserves are a warning: out of a stock), waiting for the planned
 *   ingress included. A last moment to begin is over when it has passed, or as soon as one of the crew is free and, going there straight,
 *   cannot be there by then. Who is free goes to the place of the next task at once and waits there until it begins or is missed.
 * - **O5** A task that ends outside its window, or whose lags turn out broken, was done in vain: it counts as missed, and so does what
 *   needs it.
 * - **O6** An EVA begins as planned, or later when its crew are not yet recharged. It closes when all are back and the ingress work
 *   is done; who is back first waits at the lander. Egress, ingress and walking times are as planned.
 *
 * A crew that acts also
 *
 * - **O7** goes ahead: begins when ready, never before a window, in an opening earlier than the planned one, or so early that a least lag
 *   from work planned later would break (O3); work without crew
 *   is not brought forward;
 * - **O8** breaks a task off in time to be home inside every limit, from the farther of its ends and with the own pace as known since
 *   egress; the task is missed, for all of its crew;
 * - **O9** leaves an optional task out when with it the next must-do task ahead (or what one that is planned needs; a task of a group of which the plan has no
 *   more than it must is one) of one of its crew, of a unit that it takes or by a lag could no longer begin in time, at durations of likely and a part of what lies between likely and high (caution),
 *   and, straight from where they are or with the unit as it comes free, still can without it. In time: by the latest start that
 *   leaves all needed work after it, with its ways, least lags, last openings long enough for those durations and the way home inside the EVA's
 *   limits (`Latest`);
 * - **O10** rests by the rule: before a task whose likely end (of the last one: with the walk home and ingress) would make a stretch of
 *   work too long; where the plan has a rest, also when what comes until its next rest would; and inside a task that turns out
 *   longer than the stretch allows, all of its crew together and drawing as at work. Waiting and work of effort rest, with no
 *   walking between, add up to a pause.
 *
 * A crew that carries on regardless does none of these: nobody starts before the planned start, pauses make up for lost time, planned
 * rests among them.
 *
 * - **O11** On every day each rare event of a task, and of each piece of equipment that it uses, happens with its chance, apart from all else. The task
 *   then takes so much longer than drawn, known when its time is up; and where the event spoils it, it is not done, though it was worked at
 *   to its end, and what needs it is not done either.
 * - **O12** What has been spoilt so that it can be made good (S19) is made good at the end of the work of the task that says so, if it was over by the time that
 *   this work is up and comes before it in the plan's order (or is it). The crew is at work so much longer, by a time drawn with the deviate of that work; what can go
 *   wrong with all of them, breaking off and rests among it, holds for that time too, but not the task's window. Broken off in it, their own work is
 *   done and the other stays lost. What needs the lost one and comes later waits until it is made good or no longer can be.
 *   A crew always tries: it leaves no making good out for must-do work ahead, and weighs none when it breaks optional work off.
 *
 * No decision looks ahead: it rests on what has happened by then and on what is planned. Not simulated: see LEFT_OUT.
 */

/** Nothing of O7 to O10. */
export const CARRIES_ON: CrewRules = {
  goesAhead: false,
  breaksOff: false,
  leavesOut: false,
  restsByRule: false,
  caution: 0,
};

/** A crew that acts, with `caution` in what it leaves out. */
export function acting(caution: number): CrewRules {
  return { goesAhead: true, breaksOff: true, leavesOut: true, restsByRule: true, caution };
}

/** The crew of a plan. */
export function crewOf({ crew }: Odds): CrewRules {
  return crew.acts ? acting(crew.caution) : CARRIES_ON;
}

/** What no simulated day has in it, in words. */
export const LEFT_OUT =
  "Not simulated: crew separation but for the waits that the plan has for it, stored heat, drinking water, walk-back on consumables, " +
  "return mass, stores, faults but for the rare events of the plan.";
