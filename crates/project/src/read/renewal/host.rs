//! The old main.

use ground::GroundLine;
use quantity::{Angle, Length, Pressure, unit};
use working::{Evidence, Source};

use super::{on_the_main, place_of};
use crate::context::{Ask, Context};
use crate::diagnostic::brief;
use crate::renewal::{Asbestos, Connection, Feature, Host, HostBend, Material, Run, Stretch};
use crate::tree::{Record, Tree};
use crate::wording::shown;

/// Gap or overlap of stretches that is taken as none, m.
const SAME_PLACE: f64 = 1e-6;

pub(super) fn build(
    tree: &Tree,
    cx: &mut Context<'_>,
    axis: Option<GroundLine>,
    runs: &[Option<Run>],
) -> Option<Host> {
    let mut ask = cx.ask(tree.one("host")?);
    let dn = ask.integer("dn");
    let supply = ask.word("temporary_supply").map(|w| w.value == "yes");
    let line = axis.as_ref();
    let nominal = dn.as_ref().map(|dn| Length::millimetres(f64::from(dn.value)));
    let stretches = stretches(tree, cx, line, nominal, runs);
    let all = |key: &str| tree.all(key).collect::<Vec<&Record>>();
    let bends: Vec<_> = all("host.bend").into_iter().map(|r| bend(&mut cx.ask(r), line)).collect();
    let features: Vec<_> =
        all("host.feature").into_iter().map(|r| feature(&mut cx.ask(r), line)).collect();
    let services: Vec<_> =
        all("host.service").into_iter().map(|r| service(&mut cx.ask(r), line)).collect();
    let asbestos = asbestos(&mut cx.ask(tree.one("host.asbestos")?));
    Some(Host {
        axis: axis?,
        nominal_diameter: nominal?,
        temporary_supply: supply,
        stretches: stretches?,
        bends: bends.into_iter().collect::<Option<_>>()?,
        features: features.into_iter().collect::<Option<_>>()?,
        services: services.into_iter().collect::<Option<_>>()?,
        asbestos,
    })
}

fn stretches(
    tree: &Tree,
    cx: &mut Context<'_>,
    axis: Option<&GroundLine>,
    nominal: Option<Length>,
    runs: &[Option<Run>],
) -> Option<Vec<Stretch>> {
    let records: Vec<&Record> = tree.all("host.stretch").collect();
    if records.is_empty() {
        let place = place_of(tree, "host");
        cx.report
            .error("missing", &place, "[[host.stretch]] is missing: of what the old main is made")
            .hint("add [[host.stretch]] with from, to, material, inside_diameter and wall");
        return None;
    }
    let mut list: Vec<Option<Stretch>> = Vec::with_capacity(records.len());
    let mut end: Option<Length> = None;
    for record in records {
        let mut ask = cx.ask(record);
        let one = stretch(&mut ask, axis, nominal);
        if let (Some(before), Some(one)) = (end, &one) {
            let off = (one.from - before).si();
            if off.abs() > SAME_PLACE {
                let word = if off > 0.0 { "leaves a gap to" } else { "overlaps" };
                let message = format!(
                    "the stretch begins at {} and {word} the one before, which ends at {before}",
                    one.from
                );
                ask.error("stretch_order", "from", message)
                    .found(one.from.to_string())
                    .allowed(before.to_string())
                    .hint("write the stretches in the order of the chainage, each from where the last one ends");
            }
        }
        end = one.as_ref().map(|s| s.to).or(end);
        list.push(one);
    }
    let list: Vec<Stretch> = list.into_iter().collect::<Option<_>>()?;
    let covered = |x: Length| list.iter().any(|s| x >= s.from && x <= s.to);
    for (i, run) in runs.iter().enumerate() {
        let Some(run) = run else { continue };
        for (key, x) in [("launch", run.launch), ("machine", run.machine)] {
            if covered(x) {
                continue;
            }
            let record = tree.all("run").nth(i)?;
            let message = format!("no stretch of the old main is described at {x}");
            cx.ask(record)
                .error("no_stretch", key, message)
                .hint("add a [[host.stretch]] there, or correct the run");
        }
    }
    Some(list)
}

/// Share by which bore and nominal size may differ before somebody should look at both.
// Judgement: old mains were named by sizes that are no longer used.
const BORE_OFF: f64 = 0.2;

fn stretch(
    ask: &mut Ask<'_, '_, '_>,
    axis: Option<&GroundLine>,
    nominal: Option<Length>,
) -> Option<Stretch> {
    let [from, to, inside, wall] = ["from", "to", "inside_diameter", "wall"]
        .map(|key| ask.number(key).map(|g| Length::from_si(g.value)));
    let inside_line = [("from", from), ("to", to)].map(|(key, at)| on_the_main(ask, key, at, axis));
    let ordered = ends_rise(ask, from, to);
    if let (Some(wall), Some(inside)) = (wall, inside)
        && wall >= inside
    {
        let (found, most) = (shown(wall.si(), unit::MM), shown(inside.si(), unit::MM));
        let message = format!("wall must be less than inside_diameter ({most}), but was {found}");
        ask.error("order", "wall", message).found(found).allowed(format!("less than {most}"));
    }
    if let (Some(nominal), Some(inside)) = (nominal, inside)
        && (inside / nominal - 1.0).abs() > BORE_OFF
    {
        let (found, dn) = (shown(inside.si(), unit::MM), nominal.to_millimetres());
        let message = format!("inside_diameter {found} differs by more than 20 % from DN {dn:.0}");
        ask.warning("bore_off_nominal", "inside_diameter", message)
            .found(found)
            .hint("check dn of [host], which the class of difficulty uses, and the bore, which the forces use");
    }
    let word = ask.word("material").map(|w| w.value);
    let material = word.and_then(|w| Material::ALL.into_iter().find(|(word, _)| *word == w))?.1;
    let usual = material.strengths();
    let source = Source::new(
        "middle of the usual range of the material: remembered, middle and ductile ones judgement",
        Evidence::FromMemory,
    );
    let given = ask.has("strength");
    let middle = ask.number_or_from("strength", usual.map(|[_, m, _]| (1e6 * m, source)));
    let strength = match (given, usual, middle) {
        // A measured strength has no range.
        (true, _, Some(value)) => [value; 3],
        (false, Some(range), Some(_)) => range.map(|v| 1e6 * v),
        _ => [f64::NAN; 3],
    };
    if inside_line.contains(&false) || !ordered {
        return None;
    }
    Some(Stretch {
        from: from?,
        to: to?,
        material,
        inside_diameter: inside?,
        wall: wall?,
        strength: strength.map(Pressure::from_si),
    })
}

/// Notes an end that does not lie beyond the beginning; `false` where it is so.
fn ends_rise(ask: &mut Ask<'_, '_, '_>, from: Option<Length>, to: Option<Length>) -> bool {
    let (Some(from), Some(to)) = (from, to) else { return true };
    if to > from {
        return true;
    }
    let message = format!("to must be greater than from ({from}), but was {to}");
    ask.error("order", "to", message).found(to.to_string()).allowed(format!("greater than {from}"));
    false
}

fn bend(ask: &mut Ask<'_, '_, '_>, axis: Option<&GroundLine>) -> Option<HostBend> {
    let at = ask.number("at").map(|g| Length::from_si(g.value));
    let angle = ask.number("angle").map(|g| Angle::from_si(g.value));
    let radius = ask.number("radius").map(|g| Length::from_si(g.value));
    on_the_main(ask, "at", at, axis).then_some(())?;
    Some(HostBend { at: at?, angle: angle?, radius })
}

fn feature(ask: &mut Ask<'_, '_, '_>, axis: Option<&GroundLine>) -> Option<Feature> {
    let at = ask.number("at").map(|g| Length::from_si(g.value));
    let to = ask.number("to").map(|g| Length::from_si(g.value));
    if let (Some(at), Some(to)) = (at, to)
        && to <= at
    {
        let message = format!("it must end behind its beginning at {at}, but ended at {to}");
        ask.error("order", "to", message)
            .found(to.to_string())
            .allowed(format!("more than {at}"))
            .hint("leave to out for what stands at one place");
        return None;
    }
    if to.is_some() {
        on_the_main(ask, "to", to, axis).then_some(())?;
    }
    let kind = ask.word("kind").map(|w| w.value);
    let action = ask.word("action").map(|w| w.value);
    let note = ask.text("note").map(|t| t.value);
    on_the_main(ask, "at", at, axis).then_some(())?;
    Some(Feature { at: at?, to, kind: kind?, action, note })
}

fn service(ask: &mut Ask<'_, '_, '_>, axis: Option<&GroundLine>) -> Option<Connection> {
    let at = ask.number("at").map(|g| Length::from_si(g.value));
    let name = ask.text("name").map(|t| t.value);
    let dug_up = ask.word("dug_up").map(|w| w.value == "yes");
    on_the_main(ask, "at", at, axis).then_some(())?;
    Some(Connection { at: at?, name, dug_up })
}

/// What stands for "not known yet".
const PLACEHOLDERS: &[&str] = &[
    "", "na", "none", "no", "nil", "open", "pending", "tba", "tbc", "tbd", "todo", "unknown", "x",
    "xx", "xxx", "yes",
];

fn asbestos(ask: &mut Ask<'_, '_, '_>) -> Asbestos {
    let mut text = |key: &str| {
        let text = ask.text(key)?.value;
        let bare: String =
            text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect();
        if PLACEHOLDERS.contains(&bare.as_str()) {
            let message = format!("{key} must say what is known, but was \"{}\"", brief(&text));
            ask.error("placeholder", key, message).found(brief(&text)).hint(
                "leave the line out until the authority has decided: the run is then not ready",
            );
        } else if key == "notice" && !has_year(&text) {
            let message =
                format!("notice must hold the date of the decision, but was \"{}\"", brief(&text));
            ask.error("no_date", key, message)
                .found(brief(&text))
                .hint("write number and date with the year in four digits");
        }
        Some(text)
    };
    let [authority, notice, disposal, air_monitoring] =
        ["authority", "notice", "disposal", "air_monitoring"].map(&mut text);
    let decision = ask.word("decision").map(|w| w.value);
    Asbestos { authority, notice, decision, disposal, air_monitoring }
}

/// Whether a text holds a year: four digits from 1900 on.
fn has_year(text: &str) -> bool {
    text.split(|c: char| !c.is_ascii_digit()).any(|digits| {
        digits.len() == 4 && digits.parse::<u32>().is_ok_and(|y| (1900..2200).contains(&y))
    })
}
