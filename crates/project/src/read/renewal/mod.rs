//! From the tree of a file on pipe bursting to a valid [`Renewal`].

use ground::{GroundLine, Soil};
use quantity::Length;

use super::{bore, coordinates, soils, string};
use crate::context::{Ask, Context};
use crate::diagnostic::{Place, brief};
use crate::given::Given;
use crate::renewal::{Renewal, Run};
use crate::tree::{Record, Tree};
use crate::value::Reading;
use crate::wording::nearest;

mod host;
mod street;
mod work;

pub(super) fn build(tree: &Tree, cx: &mut Context<'_>) -> Option<Renewal> {
    let mut ask = cx.ask(tree.one("")?);
    ask.integer("format");
    let name = ask.text("name");
    let note = ask.text("note");
    ask.word("technique");
    let ground = points(&mut cx.ask(tree.one("site")?), "ground");
    let axis = points(&mut cx.ask(tree.one("host")?), "axis");
    let coordinates = coordinates::of_host(tree, cx, axis.as_ref());
    let runs = work::runs(tree, cx, axis.as_ref());
    let street = street::build(tree, cx, ground, axis.as_ref());
    let host = host::build(tree, cx, axis, &runs);
    let soils = soils::build(tree, cx);
    let fill = fill(&mut cx.ask(tree.one("ground")?), &soils);
    let string = string::build(tree, cx);
    let largest = string.built.as_ref().and_then(|s| s.pipe.largest_diameter());
    let burst = work::burst(tree, cx, largest, string.built.as_ref());
    let coating = cx.ask(tree.one("string")?).word("coating").map(|w| w.value);
    let known: Option<Vec<Run>> = runs.iter().cloned().collect();
    let known = known.filter(|list| !list.is_empty());
    if let (Some(host), Some(list)) = (&host, &known) {
        work::uncovered(tree, cx, &host.axis, &host.services, list);
    }
    let fits = match (&string.built, &known) {
        (Some(string), Some(list)) => work::sub_strings(tree, cx, string, list),
        _ => None,
    };
    let pit = work::pit(tree, cx);
    let machine = work::machine(tree, cx);
    let ends =
        host.as_ref().and_then(|h| Some((h.axis.points().next()?.1, h.axis.points().last()?.1)));
    let service = bore::service(tree, cx, ends);
    let soil = fill.and_then(|f| soils.get(f.soil)?.1.as_ref().map(|s| &s.soil));
    let lubricated = burst.as_ref().is_some_and(|b| b.lubricated);
    let wet = street.as_ref().zip(pit.plate).is_some_and(|(s, [_, _, bottom])| {
        runs.iter().flatten().any(|r| {
            let level = s.ground.level_extended(r.machine) - bottom;
            s.groundwater_level.is_some_and(|water| water > level)
        })
    });
    let factors = work::factors(tree, cx, lubricated, soil, fill.is_some_and(|f| f.dense), wet);
    super::note_incomplete(
        tree,
        cx,
        &[
            ("site", street.is_some()),
            ("host", host.is_some()),
            ("ground", fill.is_some()),
            ("string", string.built.is_some()),
            ("burst", burst.is_some()),
            ("service", service.is_some()),
            ("factors", factors.is_some()),
        ],
    );
    let soils: Option<Vec<Soil>> = soils.into_iter().map(|(_, s)| Some(s?.soil)).collect();
    Some(Renewal {
        name: name?.value,
        note: note.map(|n| n.value),
        street: street?,
        host: host?,
        coordinates,
        soils: soils?,
        fill: fill?,
        string: string.built?,
        coating: coating?,
        burst: burst?,
        runs: fits.and(known)?,
        pit,
        machine,
        service: service?,
        factors: factors?,
        assumptions: cx.take_assumptions(),
        warnings: Vec::new(),
    })
}

/// A line of points; its faults stand at the point at fault.
fn points(ask: &mut Ask<'_, '_, '_>, key: &str) -> Option<GroundLine> {
    let Given { value: Reading::Rows(rows), place } = ask.reading(key)? else { return None };
    let points: Vec<_> = rows
        .iter()
        .filter_map(|row| match row.as_slice() {
            [x, z] => Some((Length::from_si(x.value), Length::from_si(z.value))),
            _ => None,
        })
        .collect();
    GroundLine::new(&points)
        .map_err(|faults| {
            for fault in faults {
                let index = match &fault {
                    ground::GroundError::NotRising { index, .. }
                    | ground::GroundError::NotFinite { index, .. } => *index,
                    _ => usize::MAX,
                };
                let cell = rows.get(index).and_then(|row| row.first());
                let at = cell.map_or_else(|| place.clone(), |c| c.place.clone());
                ask.error_at(fault.code(), &at, fault.to_string())
                    .hint("write the points as [chainage, level] in the order of the chainage");
            }
        })
        .ok()
}

fn fill(
    ask: &mut Ask<'_, '_, '_>,
    soils: &[(String, Option<soils::SoilOfFile>)],
) -> Option<crate::renewal::Fill> {
    let name = ask.text("fill");
    let trench = ask.number("trench_width").map(|g| Length::from_si(g.value));
    let dense = ask.word_or_default("density")? == "dense";
    let name = name?;
    let known = soils.iter().position(|(soil, _)| soil.eq_ignore_ascii_case(&name.value));
    if known.is_none() {
        let words = soils.iter().map(|(soil, _)| soil.as_str());
        let hint = match nearest(&name.value, words.clone()) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None if soils.is_empty() => "add a [[ground.soil]] with this name".to_owned(),
            None => format!("the soils are {}", words.collect::<Vec<_>>().join(", ")),
        };
        let message = format!("there is no soil \"{}\"", brief(&name.value));
        ask.error("unknown_soil", "fill", message).found(brief(&name.value)).hint(hint);
    }
    Some(crate::renewal::Fill { soil: known?, trench_width: trench, dense })
}

/// Notes a chainage outside the old main; `false` where it lies there.
fn on_the_main(
    ask: &mut Ask<'_, '_, '_>,
    key: &str,
    at: Option<Length>,
    axis: Option<&GroundLine>,
) -> bool {
    let (Some(at), Some(axis)) = (at, axis) else { return true };
    if at >= axis.from() && at <= axis.to() {
        return true;
    }
    let allowed = format!("{} to {}", axis.from(), axis.to());
    let message = format!("{key} must lie on the old main, {allowed}, but was {at}");
    ask.error("outside_line", key, message)
        .found(at.to_string())
        .allowed(allowed)
        .hint("chainage is counted along the axis of [host]");
    false
}

/// Notes names that stand twice.
fn unique_names(tree: &Tree, cx: &mut Context<'_>, section: &str, what: &str) {
    let mut seen = std::collections::BTreeSet::new();
    let records: Vec<&Record> = tree.all(section).collect();
    for record in records {
        let mut ask = cx.ask(record);
        let Some(name) = ask.text("name") else { continue };
        if !seen.insert(name.value.to_lowercase()) {
            let message = format!("there are two {what} named \"{}\"", brief(&name.value));
            ask.error("name_twice", "name", message)
                .hint("give each a name of its own: checks are named after it");
        }
    }
}

/// Where a section would stand, for what is missing as a whole.
fn place_of(tree: &Tree, key: &str) -> Place {
    let record = tree.all(key).next();
    record.map_or_else(
        || Place { path: format!("/{}", key.replace('.', "/")), span: 0..0 },
        |r| r.place.clone(),
    )
}
