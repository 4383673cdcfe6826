import { describe, expect, it } from "vitest";
import { z } from "zod";
import { planJsonSchema } from "../../src/plan/index.ts";
import { READY_NAMES, readyText } from "../readyplan.ts";
import { completePlan } from "./completePlan.ts";

interface Node {
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Node>>;
  readonly items?: Node;
  readonly prefixItems?: readonly Node[];
  readonly oneOf?: readonly Node[];
  readonly anyOf?: readonly Node[];
}

/** Paths of all properties without a description. */
function unsaid(node: Node, path: string): string[] {
  const inner = Object.entries(node.properties ?? {}).flatMap(([name, one]) => [
    ...(one.description ? [] : [`${path}.${name}`]),
    ...unsaid(one, `${path}.${name}`),
  ]);
  const others = [node.items ?? [], node.prefixItems ?? [], node.oneOf ?? [], node.anyOf ?? []].flat();
  return [...inner, ...others.flatMap((one) => unsaid(one, `${path}.*`))];
}

describe("the JSON Schema of a plan", () => {
  it("is draft 2020-12 and names itself", () => {
    expect(planJsonSchema()).toMatchObject({
      $schema: "https://json-schema.org/draft/2020-12/schema",
      $id: "lopeline-plan.schema.json",
      type: "object",
    });
  });

  it("says in words what every field is", () => {
    expect(unsaid(planJsonSchema() as Node, "")).toEqual([]);
  });

  // Read back as a schema of its own, so that what the file says is tried, not what it was made from.
  const back = z.fromJSONSchema(planJsonSchema());
  const changed = (change: (plan: Record<string, unknown>) => void): unknown => {
    const plan = JSON.parse(readyText("small")) as Record<string, unknown>;
    change(plan);
    return plan;
  };

  it("accepts the ready plans and the plan with every field", () => {
    for (const text of [...READY_NAMES.map(readyText), JSON.stringify(completePlan)])
      expect(back.safeParse(JSON.parse(text)).error?.issues ?? []).toEqual([]);
  });

  it("refuses another format, a missing site, an unknown field and a number out of range", () => {
    expect(back.safeParse(changed((plan) => (plan.format = "other"))).success).toBe(false);
    expect(back.safeParse(changed((plan) => delete plan.site)).success).toBe(false);
    expect(back.safeParse(changed((plan) => (plan.sites = []))).success).toBe(false);
    expect(
      back.safeParse(changed((plan) => (plan.stay = { touchdownUtc: "2033-04-12T21:40:00Z", lengthS: -1 })))
        .success,
    ).toBe(false);
  });
});
