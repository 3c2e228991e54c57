/** What the server sends; the shapes of crates/workbench/src/picture. */
export interface Picture {
  technique: "drilling" | "bursting";
  name: string;
  verdict: string;
  sentence: string;
  governing: string | null;
  checks: CheckRow[];
  section: SectionPicture;
  strips: Strip[];
  plan: Plan | null;
  cross: Cross;
  handles: Handle[];
  units: { si: string; symbol: string; factor: number }[];
}
export interface CheckRow {
  id: string;
  title: string;
  status: "pass" | "attention" | "fail" | "not-assessed";
  utilisation: number | null;
  used: string | null;
  value: string | null;
  limit: string | null;
  sense: string;
  rule: boolean;
  at: number | null;
  because: string;
}
export interface SectionPicture {
  from: number;
  to: number;
  ground: number[][];
  free_water: number | null;
  groundwater: number | null;
  strata: Stratum[];
  borings: { name: string; at: number; top: number; end: number }[];
  obstacles: Obstacle[];
  axis: number[][];
  radius: number;
  tangents: number[][];
  end_zones: number[][];
  signs: { at: number; kind: string; label: string }[];
}
export interface Stratum { name: string; pattern: string; ring: number[][] }
export interface Obstacle {
  name: string;
  kind: string;
  from: number;
  to: number;
  level: number;
  diameter: number | null;
  clearance: number | null;
  check: string | null;
}
export interface Strip {
  id: string;
  title: string;
  unit: string;
  curves: { name: string; role: string; points: number[][] }[];
  limits: [string, number][];
}
export interface Plan {
  axis: number[][];
  borings: [string, number, number][];
  crossings: [string, number, number][];
}
export interface Cross {
  circles: [string, number][];
  socket: number | null;
  barrel: number;
  floats: boolean | null;
}
export interface Handle {
  id: string;
  label: string;
  path: string;
  unit: string;
  value: number;
  step: number;
  shown: string;
  at: [number, number | null];
  motion: Motion;
}
export type Motion =
  | { kind: "angle"; pivot: [number, number] }
  | { kind: "level" }
  | { kind: "chainage" }
  | { kind: "radius"; corner: [number, number]; inwards: [number, number]; half_turn: number };
export interface Fault { code: string; path: string; message: string; found?: string; allowed?: string; hint?: string; line?: number; column?: number }
