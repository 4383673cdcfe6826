import type { PlanInput } from "../../plan.ts";

/** Tools that are shared: both crew members cannot have the same drill at once. */
export const demoEquipment: NonNullable<PlanInput["equipment"]> = [
  { id: "drill", name: "Rotary drill", count: 1 },
  { id: "core-rammer", name: "Core rammer", count: 1 },
  { id: "rake", name: "Soil rake", count: 1 },
  { id: "scoop-set", name: "Scoop and tongs", count: 2 },
  { id: "camera", name: "Hand camera", count: 2 },
  { id: "well-hoist", name: "Tripod hoist", count: 1 },
  { id: "gas-flask", name: "Gas flask", count: 1 },
  { id: "sounder", name: "Walking sounder", count: 1 },
  { id: "carry-frame", name: "Two-person carry frame", count: 1 },
  { id: "source-staff", name: "Source staff and pot", count: 1 },
];

/** Three boxes; what the requests would bring back is more than the ascent may lift (rule return-mass, 52 kg). */
export const demoContainers: NonNullable<PlanInput["containers"]> = [
  { id: "case-a", name: "Rock case A", emptyMassKg: 6.4, capacityKg: 18, volumeL: 24 },
  { id: "case-b", name: "Rock case B", emptyMassKg: 6.4, capacityKg: 18, volumeL: 24 },
  { id: "tube-rack", name: "Sealed tube rack", emptyMassKg: 3.2, capacityKg: 9, volumeL: 9 },
];
