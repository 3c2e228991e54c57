use ground::suitability as rating;
use quantity::{Length, unit};
use working::{Evidence, Source};

use crate::assessment::{Reading, Stage};
use crate::context::Context;
use crate::ground_and_fluid::Places;
use crate::item::{About, Item};

const RATING: Source =
    Source::new("rating by share of gravel of North American design guides", Evidence::FromMemory);
const ORDER: Source =
    Source::new("classes: 1 good, 2 marginal, 3 questionable, 4 unacceptable", Evidence::Judgement);
/// Highest class that is not refused.
const HIGHEST: f64 = 3.0;
/// Length of bore below which a soil is passed through and does not decide, m. Judgement.
pub(crate) const SHORT: f64 = 2.0;
/// Within this distance of its end a bore has a boring near it, m.
// Judgement: "near each end" is not put in figures by the sources.
pub(crate) const NEAR_END: f64 = 30.0;
/// Within this distance of the line a boring stands on it, m. Judgement.
pub(crate) const ON_LINE: f64 = 2.0;

/// Whether soils along the bore suit drilling, and whether borings tell enough.
pub(in crate::checks) fn suitability(c: &Context<'_>) -> Item {
    let p = c.project;
    let about = About::new(
        "ground.suitability",
        "soils along the bore, and what borings tell of them",
        Stage::Design,
        RATING,
    )
    .rule();
    let (places, shares) = match (&c.fluid().places, &c.fluid().shares) {
        (Ok(places), Some(shares)) => (places, shares),
        (Err(m), _) => return about.not_assessed(&[], m.because.clone()).missing(&m.keys),
        (Ok(_), None) => return about.not_assessed(&[], "no soil lies along the bore"),
    };
    let length = p.line.length().si();
    // What cannot be drilled decides however short it is.
    let counts = |soil: usize| {
        let class = places.model.soils().get(soil).map_or(0.0, |s| rating(s.kind).0.class());
        let long = shares.list.iter().any(|(i, share)| *i == soil && *share * length >= SHORT);
        long || class > HIGHEST
    };
    let worst = places
        .list
        .iter()
        .filter(|at| counts(at.stress.soil))
        .filter_map(|at| Some((at, places.soil(at)?)))
        .max_by(|a, b| {
            let class = |s: &ground::Soil| rating(s.kind).0;
            // The first of equal ones.
            class(a.1).cmp(&class(b.1)).then(b.0.md.si().total_cmp(&a.0.md.si()))
        });
    let Some((at, soil)) = worst else {
        return about.not_assessed(&[], "no soil lies along the bore");
    };
    let (class, words) = rating(soil.kind);
    let mut gaps = gaps(c, places);
    let beyond = places.list.iter().filter(|at| !places.model.is_between(at.chainage)).count();
    if beyond > 0 {
        let share = beyond as f64 / places.list.len().max(1) as f64;
        gaps.push(format!(
            "{:.0} % of the bore lie outside the first and the last boring, whose strata are taken to go on level",
            (100.0 * share).ceil()
        ));
    }
    let because = format!(
        "{}; {} is {}: {words}{}",
        shares.in_words(places, p.line.length()),
        soil.name,
        class.word(),
        if gaps.is_empty() { String::new() } else { format!("; {}", gaps.join("; ")) }
    );
    let one = |v: f64| Reading::new(v, unit::ONE);
    let mut item = about
        .at_most(one(class.class()), one(HIGHEST), p.factors.attention, because)
        .at(at.md)
        .attend(class.class() > 1.0 || !gaps.is_empty())
        .worked(c.working(|w| {
            let share = shares.list.iter().find(|(i, _)| *i == at.stress.soil).map_or(0.0, |(_, s)| *s);
            w.found("a", "share of the bore in the worst soil", "places every 0.5 m", share, unit::PERCENT, ORDER);
            w.given_from("k", "class of the worst soil", class.class(), unit::ONE, RATING);
            w.given_from("k_max", "highest class that is not refused", HIGHEST, unit::ONE, ORDER);
            w.derive("U", "utilisation", "k/k_max", unit::ONE, ORDER);
        }))
        .note("Ground with particles above 75 mm cannot be flushed out; artesian water, contaminated ground and debris need a design of their own (from memory, to be confirmed).")
        .note("Borings lead fluid to the surface: keep them 5 to 10 m off the line and grout them (from memory, to be confirmed).");
    for note in correlation_notes(places) {
        item = item.note(note);
    }
    item
}

/// What borings leave open.
fn gaps(c: &Context<'_>, places: &Places<'_>) -> Vec<String> {
    let p = c.project;
    let f = &p.factors.ground;
    let borings = places.model.borings();
    let mut gaps = Vec::new();
    let run = p.line.run();
    let chainages: Vec<Length> = borings.iter().map(|b| b.chainage).collect();
    let near = |x: Length| chainages.iter().any(|b| (*b - x).abs().si() <= NEAR_END);
    for (end, x) in [("entry", Length::ZERO), ("exit", run)] {
        if !near(x) {
            gaps.push(format!("no boring stands near the {end}"));
        }
    }
    for pair in borings.windows(2) {
        if let [a, b] = pair
            && b.chainage - a.chainage > f.boring_spacing
        {
            gaps.push(format!("{} and {} stand {} apart", a.name, b.name, b.chainage - a.chainage));
        }
    }
    let shallow = places.list.iter().find(|at| {
        let column = places.model.column(at.chainage, at.ground_level);
        column.known_to > (at.level - f.boring_depth).si()
    });
    if let Some(at) = shallow {
        gaps.push(format!(
            "at chainage {} borings do not reach {} below the bore",
            at.chainage, f.boring_depth
        ));
    }
    for boring in borings.iter().filter(|b| b.offset.abs().si() < ON_LINE) {
        gaps.push(format!("{} stands on the line", boring.name));
    }
    gaps
}

/// Values of correlations to blow counts beside those that the checks use.
fn correlation_notes(places: &Places<'_>) -> Vec<String> {
    crate::ground_and_fluid::correlations(places)
}
