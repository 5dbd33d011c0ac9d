/** A person made by hand. */
import type { Id, Person } from "../../src/plan/plan.ts";

export const person = (id: Id, drives: readonly Id[]): Person => ({
  id,
  path: ["crew", id],
  name: null,
  roles: [],
  drives,
  slept: null,
  sleeps: null,
  contract: null,
  phone: null,
});
