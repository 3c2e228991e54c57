//! Values and choices that may help a check of a renewal; every answer is found by checking the renewal again.

use project::{BurstFactors, Renewal, Run};
use quantity::{Force, Length, Unit, show, unit};

use super::checks;
use super::context::Context;
use crate::assessment::Check;
use crate::remedies::{Choice, Knob, Searched};

/// Work of all checks of a metre of main, in joints of the chain; measured beside the chain.
const METRE: f64 = 20.0;

impl Searched for Renewal {
    fn knobs(&self, id: &str) -> Vec<Knob<Self>> {
        match id {
            "burst.expander" => expander(self, 1.2).into_iter().collect(),
            "burst.force.rig" => [pullback(self), cutters(self)].into_iter().flatten().collect(),
            "burst.reaction-wall" => [plate_width(self), plate_bottom(self), cutters(self)]
                .into_iter()
                .flatten()
                .collect(),
            "burst.heave" | "burst.settlement" => expander(self, 0.5).into_iter().collect(),
            _ if id.starts_with("burst.neighbour.") => expander(self, 0.5).into_iter().collect(),
            "burst.pit" => pit(self, PITS.get(..2).unwrap_or_default()),
            "burst.machine-pit" => pit(self, PITS.get(2..).unwrap_or_default()),
            _ => Vec::new(),
        }
    }

    fn choices(&self, id: &str) -> Vec<Choice<Self>> {
        match id {
            "burst.force.rig" | "burst.reaction-wall" | "pull.joint-force" | "pull.barrel" => {
                lubrication(self).into_iter().chain(pits_between(self)).collect()
            }
            "burst.run-length" | "line.joint-angle" => pits_between(self).into_iter().collect(),
            _ => Vec::new(),
        }
    }

    fn check(&self, id: &str) -> Option<Check> {
        checks::one(&Context::new(self, false), id).map(|item| item.check)
    }

    fn checks(&self) -> Vec<Check> {
        let all = checks::all(&Context::new(self, false));
        all.into_iter().map(|item| item.check).collect()
    }

    fn work(&self, _: Option<&str>) -> f64 {
        METRE * self.runs.iter().map(|run| run.length().si()).sum::<f64>().max(1.0)
    }
}

fn knob(
    parameter: &str,
    unit: Unit,
    (from, to, step): (f64, f64, f64),
    note: &'static str,
    set: impl Fn(&mut Renewal, f64) + 'static,
) -> Knob<Renewal> {
    Knob {
        parameter: parameter.to_owned(),
        unit,
        from,
        to,
        step,
        note,
        several: false,
        set: Box::new(move |renewal, value| {
            set(renewal, value);
            true
        }),
    }
}

/// The expander up to a share of what it is.
fn expander(renewal: &Renewal, share: f64) -> Option<Knob<Renewal>> {
    let from = renewal.burst.expander_diameter?.si();
    let path = "/burst/expander_diameter";
    Some(knob(path, unit::MM, (from, share * from, 0.001), "", |r, v| {
        r.burst.expander_diameter = Some(Length::from_si(v));
    }))
}

fn pullback(renewal: &Renewal) -> Option<Knob<Renewal>> {
    let from = renewal.machine.pullback?.si();
    let note = "a larger machine: its wall and pit grow with it";
    Some(knob("/machine/pullback", unit::KN, (from, 5.0 * from, 50e3), note, |r, v| {
        r.machine.pullback = Some(Force::from_si(v));
    }))
}

/// Fewer blades that cut at the same time.
fn cutters(renewal: &Renewal) -> Option<Knob<Renewal>> {
    let from = f64::from(renewal.burst.cutters);
    let splits = |s: &project::Stretch| s.material.yields() == project::Yields::Split;
    if from <= 1.0 || !renewal.host.stretches.iter().any(splits) {
        return None;
    }
    let note = "fewer blades that cut at the same time";
    Some(knob("/burst/cutters", unit::ONE, (from, 1.0, 1.0), note, |r, v| {
        // Whole steps between one and the number now.
        r.burst.cutters = (1..=64).take_while(|n| f64::from(*n) <= v + 0.5).last().unwrap_or(1);
    }))
}

fn plate_width(renewal: &Renewal) -> Option<Knob<Renewal>> {
    let [width, ..] = renewal.pit.plate?;
    // It stands in the pit.
    let room = renewal.pit.machine_width.map_or(4.0 * width.si(), Length::si);
    let from = width.si();
    Some(knob("/pit/plate_width", unit::M, (from, room, 0.1), "", |r, v| {
        if let Some([width, ..]) = &mut r.pit.plate {
            *width = Length::from_si(v);
        }
    }))
}

fn plate_bottom(renewal: &Renewal) -> Option<Knob<Renewal>> {
    let [_, top, base] = renewal.pit.plate?;
    let to = base.si() + 3.0 * (base - top).si().max(0.1);
    let note = "a deeper pit and wall";
    Some(knob("/pit/plate_bottom", unit::M, (base.si(), to, 0.1), note, |r, v| {
        if let Some([.., base]) = &mut r.pit.plate {
            *base = Length::from_si(v);
        }
    }))
}

type Side = fn(&mut Renewal) -> &mut Option<Length>;

/// Sizes of the pits: place in the file, and the value.
const PITS: [(&str, Side); 4] = [
    ("/pit/launch_length", |r| &mut r.pit.launch_length),
    ("/pit/launch_width", |r| &mut r.pit.launch_width),
    ("/pit/machine_length", |r| &mut r.pit.machine_length),
    ("/pit/machine_width", |r| &mut r.pit.machine_width),
];

fn pit(renewal: &Renewal, sides: &[(&'static str, Side)]) -> Vec<Knob<Renewal>> {
    let mut copy = renewal.clone();
    let each = sides.iter().filter_map(|(path, side)| {
        let from = side(&mut copy).as_ref()?.si();
        let side = *side;
        Some(knob(path, unit::M, (from, 20.0 * from, 0.1), "", move |r, v| {
            *side(r) = Some(Length::from_si(v));
        }))
    });
    each.collect()
}

fn lubrication(renewal: &Renewal) -> Option<Choice<Renewal>> {
    // The friction given in the file would stay what it is.
    let [dry, wet] = [false, true].map(BurstFactors::usual_friction);
    (!renewal.burst.lubricated && renewal.factors.friction == dry).then(|| Choice {
        parameter: "/burst/lubricated",
        from: "no".to_owned(),
        to: "yes".to_owned(),
        set: Box::new(move |r: &mut Renewal| {
            r.burst.lubricated = true;
            r.factors.friction = wet;
        }),
    })
}

/// A pit in the middle of the longest run.
fn pits_between(renewal: &Renewal) -> Option<Choice<Renewal>> {
    /// Runs shorter than this are not worth a pit, m. Judgement.
    const SHORT: f64 = 20.0;
    let longest = renewal.runs.iter().enumerate();
    let (index, run) = longest.max_by(|a, b| a.1.length().si().total_cmp(&b.1.length().si()))?;
    if run.length().si() < SHORT {
        return None;
    }
    let middle = ((run.launch + run.machine) * 0.5).si().round();
    let (first, second) = (
        Run { machine: Length::from_si(middle), ..run.clone() },
        Run {
            launch: Length::from_si(middle),
            name: format!("{}, 2nd part", run.name),
            ..run.clone()
        },
    );
    Some(Choice {
        parameter: "/run",
        from: format!("run {} ({} to {})", run.name, run.launch, run.machine),
        to: format!("two runs, with a pit between at {}", show(middle, unit::M)),
        set: Box::new(move |r: &mut Renewal| {
            let pair = [first.clone(), second.clone()];
            r.runs.splice(index..=index, pair);
        }),
    })
}
