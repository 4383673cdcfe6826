/**
 * Seconds of processor time that this process has used, all its threads together: what a benchmark measures by, since it
 * does not depend on what else the machine is doing. For one busy thread it runs a little ahead of the wall clock.
 */
export function processorSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
