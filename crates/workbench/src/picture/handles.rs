//! What can be dragged, and how a pointer becomes a value.

use line::LevelDesign;
use quantity::{System, Unit, unit};
use serde::Serialize;

/// One value of the design file that a pointer or the arrow keys change.
#[derive(Debug, Clone, Serialize)]
pub struct Handle {
    /// Name for scripts and tests: `entry-angle`.
    pub id: String,
    /// What it changes, in words.
    pub label: String,
    /// Place in the design file.
    pub path: String,
    /// SI unit of the value: `m` or `rad`.
    pub unit: &'static str,
    /// Value in SI.
    pub value: f64,
    /// Step of the arrow keys and of the pointer, SI.
    pub step: f64,
    /// Value as the reader reads it.
    pub shown: String,
    /// Chainage and level at which it is drawn.
    pub at: [f64; 2],
    /// How a pointer becomes a value.
    pub motion: Motion,
}

/// How a pointer at chainage and level becomes a value in SI.
#[derive(Debug, Clone, Serialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
pub enum Motion {
    /// Angle below the horizontal at a point.
    Angle {
        /// The point.
        pivot: [f64; 2],
    },
    /// The pointer's level.
    Level,
    /// The pointer's chainage.
    Chainage,
    /// Radius of the arc that fills a corner: its middle lies R (1/cos h − 1) from the corner.
    Radius {
        /// Where the tangents meet.
        corner: [f64; 2],
        /// Unit vector from the corner to the middle of the arc.
        inwards: [f64; 2],
        /// Half of the turn, rad.
        half_turn: f64,
    },
}

/// Step of a unit that a hand expects: tenths of a degree, whole metres of radius, centimetres of level.
fn step(metric: Unit, metric_step: f64, customary_step: f64, system: System) -> f64 {
    let size = if system == System::Metric { metric_step } else { customary_step };
    metric.in_system(system).to_si(size)
}

/// Handles of a line by levels and radii.
pub(super) fn of_level(design: &LevelDesign, system: System) -> Vec<Handle> {
    let (entry, exit) = (design.entry_angle.si(), design.exit_angle.si());
    let (lowest, run) = (design.lowest_level.si(), design.run.si());
    let (top, end) = (design.entry_level.si(), design.exit_level.si());
    let mut list = Vec::new();
    let mut add = |id: &str, label: &str, key: &str, value: f64, unit: Unit, step, at, motion| {
        list.push(Handle {
            id: id.to_owned(),
            label: label.to_owned(),
            path: format!("/line/{key}"),
            unit: unit.kind().si().symbol(),
            value,
            step,
            shown: quantity::show_with(value, unit, system),
            at,
            motion,
        });
    };
    let angle = step(unit::DEG, 0.1, 0.1, system);
    let radius = step(unit::M, 1.0, 5.0, system);
    let level = step(unit::M, 0.05, 0.1, system);
    let length = step(unit::M, 0.5, 1.0, system);
    let Ok(profile) = design.profile() else { return list };
    let (reach_in, reach_out) = (profile.entry_run.si(), profile.exit_run.si());
    // On the tangent, or on the chord of the arc where there is no tangent to speak of.
    let grip = |tangent: f64, reach: f64, slope: f64| {
        let along = (0.7 * tangent).max(0.15 * reach / slope.cos().max(0.1));
        (along * slope.cos(), along * slope.sin())
    };
    let (dx, dz) = grip(profile.entry_tangent.si(), reach_in, entry);
    let pivot = [0.0, top];
    let motion = Motion::Angle { pivot };
    add(
        "entry-angle",
        "entry angle",
        "entry_angle",
        entry,
        unit::DEG,
        angle,
        [dx, top - dz],
        motion,
    );
    let (dx, dz) = grip(profile.exit_tangent.si(), reach_out, exit);
    let motion = Motion::Angle { pivot: [run, end] };
    let at = [run - dx, end - dz];
    add("exit-angle", "exit angle", "exit_angle", exit, unit::DEG, angle, at, motion);
    let corner = |angle: f64, from: f64, direction: f64, depth: f64| {
        let half = 0.5 * angle;
        let x = from + direction * depth / angle.tan();
        // From the corner to the middle of the arc: halfway between "up" and "back to the tangent".
        ([x, lowest], [direction * half.sin(), half.cos()], half)
    };
    let mut arc =
        |id: &str, label: &str, key: &str, angle: f64, r: f64, from: f64, dir: f64, depth: f64| {
            if angle < 1e-3 {
                return;
            }
            let (corner, inwards, half_turn) = corner(angle, from, dir, depth);
            let gap = r * (1.0 / half_turn.cos() - 1.0);
            let at = [corner[0] + inwards[0] * gap, corner[1] + inwards[1] * gap];
            let motion = Motion::Radius { corner, inwards, half_turn };
            add(id, label, key, r, unit::M, radius, at, motion);
        };
    let (r1, r2) = (design.entry_radius.si(), design.exit_radius.si());
    arc(
        "entry-radius",
        "radius of the entry curve",
        "entry_radius",
        entry,
        r1,
        0.0,
        1.0,
        top - lowest,
    );
    arc(
        "exit-radius",
        "radius of the exit curve",
        "exit_radius",
        exit,
        r2,
        run,
        -1.0,
        end - lowest,
    );
    let middle = 0.5 * (reach_in + (run - reach_out));
    let at = [middle, lowest];
    add("lowest-level", "lowest level", "lowest_level", lowest, unit::M, level, at, Motion::Level);
    add(
        "entry-level",
        "level of the entry point",
        "entry_level",
        top,
        unit::M,
        level,
        [0.0, top],
        Motion::Level,
    );
    add(
        "exit-level",
        "level of the exit point",
        "exit_level",
        end,
        unit::M,
        level,
        [run, end],
        Motion::Level,
    );
    let at = [run, end + 0.0];
    add(
        "run",
        "run: chainage of the exit point",
        "run",
        run,
        unit::M,
        length,
        at,
        Motion::Chainage,
    );
    for (bend, k) in design.bends.iter().zip(0..) {
        let start = bend.start_chainage.si();
        let at = [start, f64::NAN];
        let id = format!("bend-{}-start", k + 1);
        let label = format!("start of plan bend {}", k + 1);
        list.push(Handle {
            id,
            label,
            path: format!("/line/bend/{k}/start"),
            unit: "m",
            value: start,
            step: length,
            shown: quantity::show_with(start, unit::M, system),
            at,
            motion: Motion::Chainage,
        });
    }
    list
}
