//! The head of the result: figures, assumptions, cautions.

use project::{Assembly, Material, Renewal, Yields};
use pull::bursting::LOSS_RATIOS;
use quantity::{show, unit};
use working::{Assumption, Evidence, Source};

use super::checks::movement::{TROUGH, TROUGH_WIDTH};
use super::context::Context;
use super::forces::{CUT_LENGTH, SOCKET_LENGTH, SPLITTING_SPREAD, spike_factors};
use crate::assessment::{Reading, Summary};

/// The renewal in a few figures.
pub(super) fn summary(c: &Context<'_>) -> Summary {
    let r = c.renewal;
    let pipe = &r.string.pipe;
    let figure = |name: &str, value: f64, unit| (name.to_owned(), Reading::new(value, unit));
    let mut figures = vec![
        figure("length of the old main", (r.host.axis.to() - r.host.axis.from()).si(), unit::M),
        figure("barrel with coating", pipe.barrel_diameter().si(), unit::MM),
    ];
    if let Some(largest) = pipe.largest_diameter() {
        figures.push(figure("socket with protection", largest.si(), unit::MM));
    }
    if let Some(expander) = r.burst.expander_diameter {
        figures.push(figure("expander", expander.si(), unit::MM));
    }
    if let Some(smallest) =
        r.host.stretches.iter().map(|s| s.inside_diameter).reduce(quantity::Length::min)
    {
        figures.push(figure("smallest bore of the old main", smallest.si(), unit::MM));
    }
    let outside = r.host.stretches.iter().map(|s| s.inside_diameter + s.wall * 2.0);
    if let Some(largest) = outside.reduce(quantity::Length::max) {
        figures.push(figure("largest outside of the old main", largest.si(), unit::MM));
    }
    if let Some(pull) = &r.string.joint.permitted_pull {
        figures.push(figure("joint: permitted pull", pull.value.si(), unit::KN));
    }
    if let Some(pull) = r.machine.pullback {
        figures.push(figure("machine", pull.si(), unit::KN));
    }
    let mut materials: Vec<&str> = r.host.stretches.iter().map(|s| s.material.word()).collect();
    materials.dedup();
    let assembly = match r.string.assembly {
        Assembly::String => "one string",
        Assembly::SubStrings(_) => "sub-strings",
        Assembly::PipeByPipe => "pipe by pipe",
    };
    let facts = vec![
        ("technique".to_owned(), "pipe bursting, static head".to_owned()),
        ("new main".to_owned(), format!("{} {} {}", pipe.standard(), pipe.nominal(), pipe.class())),
        (
            "old main".to_owned(),
            format!("DN {:.0}, {}", r.host.nominal_diameter.to_millimetres(), materials.join(", ")),
        ),
        ("runs, services".to_owned(), format!("{}, {}", r.runs.len(), r.host.services.len())),
        ("assembly".to_owned(), assembly.to_owned()),
    ];
    Summary { name: r.name.clone(), note: r.note.clone(), figures, facts }
}

/// Every assumption: those of the file, then those that no key holds.
pub(super) fn assumptions(r: &Renewal) -> Vec<Assumption> {
    let mut list = r.assumptions.clone();
    let mut add = |path: &str, meaning: &str, value: String, source: Source| {
        list.push(Assumption { path: path.to_owned(), meaning: meaning.to_owned(), value, source });
    };
    add(
        "host: contact length",
        "length of host in contact with the cone, to which the breaking force is proportional",
        show(pull::bursting::CONTACT_LENGTH.si(), unit::MM),
        Source::new("fitting parameter, 20 to 100 mm", Evidence::Judgement),
    );
    let splits = r.host.stretches.iter().any(|s| s.material.yields() == Yields::Split);
    if splits {
        let (least, most) = SPLITTING_SPREAD;
        add(
            "host: splitting",
            "ends of the splitting force over its planning value, for given metal",
            format!("{least} and {most}"),
            Source::new("the formula is good to the order of magnitude", Evidence::Judgement),
        );
    }
    if r.host.features.iter().any(|f| !matches!(f.action, Some("dig out" | "reroute"))) {
        let [_, planning, high] = spike_factors();
        add(
            "host: clamps and couplings",
            "force where blades cut a clamp or coupling over that in plain pipe, planning and high",
            format!("{planning} and {high}"),
            pull::bursting::COUPLING_FACTORS.source.clone(),
        );
    }
    add(
        "head: cone friction",
        "the ends of the cone's friction spread as those of the string's do",
        "low and high".to_owned(),
        Source::new("no range is stated for the cone", Evidence::Judgement),
    );
    add(
        "site: traffic",
        "surcharge of the surface in drag and heave",
        show(0.0, unit::KPA),
        Source::new("the file has no place for it", Evidence::Judgement),
    );
    add(
        "ground: bell curve",
        "width of the heave that goes straight up over the depth of the axis",
        show(TROUGH_WIDTH, unit::ONE),
        TROUGH,
    );
    add(
        "string: socket length",
        "length of a socket that bears on the ground",
        show(SOCKET_LENGTH.si(), unit::MM),
        Source::new("0.10 to 0.25 m", Evidence::FromMemory),
    );
    add(
        "ground: silo",
        "cohesion of the fill at the high end of the drag",
        show(0.0, unit::KPA),
        Source::new("a hole that has closed has lost it", Evidence::Judgement),
    );
    add(
        "pit: rooms",
        "room in the launch pit for head and pulling gear, to join, and at each side of the socket",
        format!(
            "{}, {}, {}",
            show(super::checks::pits::HEAD, unit::M),
            show(super::checks::pits::JOINING, unit::M),
            show(super::checks::pits::SIDE, unit::M)
        ),
        Source::new("0.5 to 1.0 m each, 0.4 to 0.6 m at the sides", Evidence::FromMemory),
    );
    if r.host.stretches.iter().any(|s| s.material.yields() == Yields::Split) {
        add(
            "host: cut length",
            "length of the cut that one blade keeps open",
            show(CUT_LENGTH.si(), unit::M),
            Source::new("sample value of the formula", Evidence::Judgement),
        );
    }
    add(
        "site: traffic",
        "load of traffic on the ground above the main",
        show(0.0, unit::KPA),
        Source::new(
            "no load is reckoned with: keep traffic off the head while it moves",
            Evidence::Judgement,
        ),
    );
    if r.burst.lubricated {
        add(
            "burst: lubricant",
            "volume of lubricant over the volume to fill, losses included",
            show(LOSS_RATIOS.high_si().unwrap_or(LOSS_RATIOS.low_si()), unit::ONE),
            LOSS_RATIOS.source.clone(),
        );
    }
    let data = r.string.pipe.data();
    if data.proof_strength.source.evidence != Evidence::Given {
        add(
            "pipe: proof strength",
            "0.2 % proof strength of the iron",
            show(data.proof_strength.value.si(), unit::MPA),
            data.proof_strength.source.clone(),
        );
    }
    list
}

/// What every reader must keep in mind.
pub(super) fn cautions(r: &Renewal) -> Vec<String> {
    let mut list: Vec<String> = [
        "An aid to a qualified engineer: local codes, the authority and licensed practice decide.",
        "No method for the pull of bursting is generally accepted: measure and record the force on the new string from the first metre, between expander and pipe.",
        "Dig up and take off every service before the head passes; expose what lies near.",
        "Rods under tension store energy: keep people out of both pits and off the line of the rods while they move; a broken rod flies.",
        "Pits need shoring, edge protection and a way out; the machine pushes against the wall from which the old main comes.",
        "Do not stop within a run: the hole closes and the string may not start again.",
    ]
    .map(str::to_owned)
    .to_vec();
    if r.host.stretches.iter().any(|s| s.material == Material::AsbestosCement) {
        list.push("Asbestos cement: fibres harm. Breaking it needs the authority's decision; where bursting is allowed, keep fragments wet, measure fibres in the air, and record what stays in the ground.".to_owned());
    }
    list
}
