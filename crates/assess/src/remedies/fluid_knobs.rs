//! Values that may help checks of fluid and ground.

use crate::ground_and_fluid::{main_kind, usual_ratio};
use project::{Drilling, Project};
use quantity::{Density, Flow, Length, Pressure, unit};

use super::knob::Knob;

/// Flow at which something still moves, m3/s: 50 l/min.
const LEAST_FLOW: f64 = 50e-3 / 60.0;

/// Values that may help a check of the fluid.
pub(super) fn knobs(project: &Project, id: &str) -> Vec<Knob> {
    match id {
        "fluid.restart" => [gel(project), pilot_diameter(project)].into_iter().flatten().collect(),
        "fluid.pump" => nozzles(project)
            .into_iter()
            .chain(pump_pressure(project))
            .chain(flows(project))
            .collect(),
        "fluid.limit-pressure.pilot" => {
            [pilot_flow(project), pilot_ratio(project), pilot_diameter(project)]
                .into_iter()
                .flatten()
                .collect()
        }
        "fluid.limit-pressure.pull" => [pulling_flow(project), speed(project), density(project)]
            .into_iter()
            .flatten()
            .collect(),
        _ => [ream_flow(project), ream_ratio(project), pilot_diameter(project)]
            .into_iter()
            .flatten()
            .collect(),
    }
}

/// Less flow in every stage.
pub(super) fn flows(project: &Project) -> Vec<Knob> {
    [pilot_flow(project), ream_flow(project), pulling_flow(project)].into_iter().flatten().collect()
}

fn knob(
    parameter: &str,
    unit: quantity::Unit,
    (from, to, step): (f64, f64, f64),
    note: &'static str,
    set: impl Fn(&mut Project, f64) + 'static,
) -> Knob {
    Knob {
        parameter: parameter.to_owned(),
        unit,
        from,
        to,
        step,
        note,
        several: false,
        set: Box::new(move |p, v| {
            set(p, v);
            true
        }),
    }
}

fn flow(
    parameter: &str,
    drilling: &Drilling,
    set: impl Fn(&mut Project, Option<Flow>) + 'static,
) -> Option<Knob> {
    let from = drilling.flow?.si();
    let step = 10e-3 / 60.0;
    let note = "slower: see the largest advance that this flow serves";
    Some(knob(parameter, unit::L_PER_MIN, (from, LEAST_FLOW, step), note, move |p, v| {
        set(p, Some(Flow::from_si(v)));
    }))
}

fn pilot_flow(project: &Project) -> Option<Knob> {
    flow("/bore/pilot/flow", &project.bore.pilot, |p, v| p.bore.pilot.flow = v)
}

fn pulling_flow(project: &Project) -> Option<Knob> {
    flow("/bore/pulling/flow", &project.bore.pulling, |p, v| p.bore.pulling.flow = v)
}

fn ream_flow(project: &Project) -> Option<Knob> {
    let fastest = project
        .bore
        .reaming
        .iter()
        .max_by(|a, b| a.flow.map_or(0.0, Flow::si).total_cmp(&b.flow.map_or(0.0, Flow::si)))?;
    flow("/bore/reaming/flow", fastest, |p, v| {
        p.bore.reaming.iter_mut().for_each(|d| d.flow = v);
    })
}

fn pilot_ratio(project: &Project) -> Option<Knob> {
    let from = project
        .bore
        .pilot
        .fluid_ratio
        .or_else(|| main_kind(project).map(|kind| usual_ratio(kind).0))?;
    let note = "more fluid for the ground cut: lighter returns, more to dispose of";
    Some(knob("/bore/pilot/fluid_ratio", unit::ONE, (from, 12.0, 0.5), note, |p, v| {
        p.bore.pilot.fluid_ratio = Some(v);
    }))
}

fn ream_ratio(project: &Project) -> Option<Knob> {
    let given = project.bore.reaming.first()?.fluid_ratio;
    let from = given.or_else(|| main_kind(project).map(|kind| usual_ratio(kind).0))?;
    let note = "more fluid for the ground cut: lighter returns, more to dispose of";
    Some(knob("/bore/reaming/fluid_ratio", unit::ONE, (from, 12.0, 0.5), note, |p, v| {
        p.bore.reaming.iter_mut().for_each(|d| d.fluid_ratio = Some(v));
    }))
}

fn pilot_diameter(project: &Project) -> Option<Knob> {
    let from = project.bore.pilot_diameter?.si();
    let to = project.bore.ream_diameters.first()?.si() - 0.01;
    Some(knob("/bore/pilot_diameter", unit::MM, (from, to, 0.01), "", |p, v| {
        p.bore.pilot_diameter = Some(Length::from_si(v));
    }))
}

fn speed(project: &Project) -> Option<Knob> {
    let from = project.bore.pulling_speed.si();
    Some(knob(
        "/bore/pulling/speed",
        unit::M_PER_MIN,
        (from, 0.1 / 60.0, 0.1 / 60.0),
        "",
        |p, v| {
            p.bore.pulling_speed = quantity::Velocity::from_si(v);
        },
    ))
}

fn density(project: &Project) -> Option<Knob> {
    let from = project.fluid.density.si();
    // With cuttings it does not get lighter than it went in.
    let to = project.fluid.fresh_density.si();
    let note = "lighter fluid: clean it, or thin it; the string's weight in it changes, too";
    Some(knob("/fluid/density", unit::KG_PER_M3, (from, to, 5.0), note, |p, v| {
        p.fluid.density = Density::from_si(v);
    }))
}

fn gel(project: &Project) -> Option<Knob> {
    let from = project.fluid.gel_strength?.si();
    let note = "shorter stops, or a fluid that gels less";
    Some(knob("/fluid/gel_strength", unit::PA, (from, 0.5, 0.5), note, |p, v| {
        p.fluid.gel_strength = Some(Pressure::from_si(v));
    }))
}

fn nozzles(project: &Project) -> Option<Knob> {
    let from = project.bore.pilot.nozzles?.1.si();
    let note = "wider nozzles of the bit";
    Some(knob("/bore/pilot/nozzle_diameter", unit::MM, (from, 0.03, 1e-3), note, |p, v| {
        if let Some(nozzles) = &mut p.bore.pilot.nozzles {
            nozzles.1 = Length::from_si(v);
        }
    }))
}

fn pump_pressure(project: &Project) -> Option<Knob> {
    let from = project.rig.pump.pressure?.si();
    let note = "a pump that may make at least this";
    Some(knob("/rig/pump/pressure", unit::BAR, (from, 400e5, 5e5), note, |p, v| {
        p.rig.pump.pressure = Some(Pressure::from_si(v));
    }))
}

/// A smaller share of the annulus that closes: grout.
pub(super) fn closing(project: &Project) -> Option<Knob> {
    let from = project.factors.ground.annulus_closing;
    let note = "fluid that sets, or grout in the annulus";
    let parameter = "/factors/ground/annulus_closing";
    Some(knob(parameter, unit::ONE, (from, 0.05, 0.01), note, |p, v| {
        p.factors.ground.annulus_closing = v;
    }))
}
