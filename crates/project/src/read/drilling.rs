//! Flows, tools and pump of the stages of drilling.

use quantity::{Flow, Force, Length, Pressure, Velocity, unit};

use crate::context::{Ask, Context};
use crate::given::Given;
use crate::model::{Drilling, Outlet, Pump, Rig};
use crate::tree::Tree;
use crate::value::Reading;
use crate::wording::shown;

/// The stages of drilling.
pub(super) struct Stages {
    pub(super) pilot: Drilling,
    pub(super) reaming: Vec<Drilling>,
    pub(super) pulling: Drilling,
    pub(super) pulling_speed: Velocity,
}

pub(super) fn rig(tree: &Tree, cx: &mut Context<'_>) -> Option<Rig> {
    let pump = pump(&mut cx.ask(tree.one("rig.pump")?));
    let mut ask = cx.ask(tree.one("rig")?);
    let pullback = ask.number("pullback");
    let reamer = ask.number_or_default("reamer_force");
    Some(Rig {
        pullback: pullback.map(|g| Force::from_si(g.value)),
        reamer_force: Force::from_si(reamer?),
        pump: pump?,
    })
}

fn pump(ask: &mut Ask<'_, '_, '_>) -> Option<Pump> {
    let capacity = ask.number("capacity").map(|g| Flow::from_si(g.value));
    let pressure = ask.number("pressure").map(|g| Pressure::from_si(g.value));
    // Without a capacity there is nothing of which to take a share, and nothing is assumed.
    let efficiency = if capacity.is_some() || ask.has("efficiency") {
        ask.number_or_default("efficiency")?
    } else {
        1.0
    };
    Some(Pump { capacity, pressure, efficiency })
}

/// The stages; `delivered` is what the pump delivers, m3/s.
pub(super) fn build(
    tree: &Tree,
    cx: &mut Context<'_>,
    passes: usize,
    delivered: Option<f64>,
) -> Option<Stages> {
    let mut ask = cx.ask(tree.one("bore.pilot")?);
    let pilot = pilot(&mut ask, delivered);
    let mut ask = cx.ask(tree.one("bore.reaming")?);
    let reaming = reaming(&mut ask, delivered, passes);
    let mut ask = cx.ask(tree.one("bore.pulling")?);
    let flow = ask.number_or("flow", delivered).map(Flow::from_si);
    let speed = ask.number_or_default("speed");
    let outlet = outlet(&mut ask);
    let pulling = Drilling {
        flow,
        fluid_ratio: None,
        nozzles: None,
        motor_loss: Pressure::ZERO,
        outlet: outlet?,
    };
    Some(Stages {
        pilot: pilot?,
        reaming: reaming?,
        pulling,
        pulling_speed: Velocity::from_si(speed?),
    })
}

fn pilot(ask: &mut Ask<'_, '_, '_>, delivered: Option<f64>) -> Option<Drilling> {
    let flow = ask.number_or("flow", delivered).map(Flow::from_si);
    let ratio = ask.number("fluid_ratio");
    let nozzles = nozzles(ask);
    let motor_loss = ask.number_or_default("motor_loss")?;
    Some(Drilling {
        flow,
        fluid_ratio: ratio.map(|g| g.value),
        nozzles,
        motor_loss: Pressure::from_si(motor_loss),
        outlet: Outlet::Entry,
    })
}

fn nozzles(ask: &mut Ask<'_, '_, '_>) -> Option<(u32, Length)> {
    const BOTH: [&str; 2] = ["nozzles", "nozzle_diameter"];
    if BOTH.map(|key| ask.has(key)).contains(&true) {
        BOTH.iter().for_each(|key| ask.require(key, "beside the other value of the nozzles"));
    }
    let count = ask.integer("nozzles").map(|g| g.value);
    let diameter = ask.number("nozzle_diameter").map(|g| Length::from_si(g.value));
    count.zip(diameter)
}

fn reaming(
    ask: &mut Ask<'_, '_, '_>,
    delivered: Option<f64>,
    passes: usize,
) -> Option<Vec<Drilling>> {
    let flows = for_each(ask, "flow", passes);
    if !ask.has("flow")
        && passes > 0
        && let Some(flow) = delivered
    {
        let source = ask.default_source("flow");
        ask.assume("flow", shown(flow, unit::L_PER_MIN), source);
    }
    let ratios = for_each(ask, "fluid_ratio", passes);
    let nozzles = nozzles(ask);
    let outlet = outlet(ask)?;
    let at = |list: &[f64], i: usize| list.get(i).copied();
    Some(
        (0..passes)
            .map(|i| Drilling {
                flow: at(&flows, i).or(delivered).map(Flow::from_si),
                fluid_ratio: at(&ratios, i),
                nozzles,
                motor_loss: Pressure::ZERO,
                outlet,
            })
            .collect(),
    )
}

/// A list with one value for all passes or one for each; empty where none was given.
fn for_each(ask: &mut Ask<'_, '_, '_>, key: &str, passes: usize) -> Vec<f64> {
    let Some(Given { value: Reading::Numbers(list), .. }) = ask.reading(key) else {
        return Vec::new();
    };
    let values: Vec<f64> = list.iter().map(|g| g.value).collect();
    match values.as_slice() {
        [one] => vec![*one; passes],
        many if many.len() == passes => values,
        many => {
            let message = format!(
                "{key} must have one value, or one for each of the {passes} passes, but has {}",
                many.len()
            );
            ask.error("count", key, message)
                .found(format!("{} values", many.len()))
                .allowed(format!("1 or {passes} values"));
            Vec::new()
        }
    }
}

fn outlet(ask: &mut Ask<'_, '_, '_>) -> Option<Outlet> {
    Some(match ask.word_or_default("outlet")? {
        "entry" => Outlet::Entry,
        "exit" => Outlet::Exit,
        _ => Outlet::Either,
    })
}
