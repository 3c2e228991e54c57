//! The band of figures below the long section of a main that is burst.

use assess::Profile;
use project::Renewal;
use quantity::{Length, unit};

use super::kit::{Draft, SMALL, length, metre_symbol, shortened, two_decimals};
use super::renewal_section::HEADS;
use super::street::Page;
use crate::Subject;
use crate::scene::text::width_mm;
use crate::scene::{Anchor, Layer, Mark, Point, Rectangle, SymbolKind, View};

/// Height of a row, mm.
const ROW: f64 = 5.2;
/// Rows of the band.
const ROWS: f64 = 8.0;
/// Height of the band, mm.
pub(super) const HEIGHT: f64 = ROW * ROWS;
/// Least distance of two figures, mm.
const APART: f64 = 13.0;

/// The least of 1, 2 and 5 times a power of ten from a number on.
pub(super) fn step(least: f64) -> f64 {
    let power = 10_f64.powf(least.max(1e-6).log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .map(|f| f * power)
        .into_iter()
        .find(|s| *s >= least * (1.0 - 1e-9))
        .unwrap_or(power * 10.0)
}

/// Where the force at the machine is greatest in each run: no figure of the band may be less than what governs.
fn peaks(subject: &Subject<'_>, renewal: &Renewal) -> Vec<f64> {
    let profiles = &subject.assessment.profiles;
    let of = |k: usize| {
        let id = format!("burst.force.rig.planning.{k}");
        let p = profiles.iter().find(|p| p.id == id)?;
        let points = p.md.iter().copied().zip(p.values.iter().copied());
        points.reduce(|a, b| if b.1 > a.1 { b } else { a }).map(|p| p.0)
    };
    (1..=renewal.runs.len()).filter_map(of).collect()
}

/// Chainages with figures: greatest forces, ends of main and runs, then round ones between.
pub(super) fn stations(subject: &Subject<'_>, renewal: &Renewal, page: &Page) -> Vec<f64> {
    let apart = APART * page.scale / 1000.0;
    let axis = &renewal.host.axis;
    let mut first: Vec<f64> = peaks(subject, renewal);
    first.extend([axis.from().si(), axis.to().si()]);
    first.extend(renewal.runs.iter().flat_map(|r| [r.launch.si(), r.machine.si()]));
    let mut list: Vec<f64> = Vec::new();
    let add = |list: &mut Vec<f64>, x: f64| {
        if page.shows(x) && list.iter().all(|y| (x - y).abs() >= apart - 1e-9) {
            list.push(x);
        }
    };
    for x in first {
        add(&mut list, x);
    }
    let unit = unit::M.in_system(subject.system).to_si(1.0);
    let step = step(apart / unit) * unit;
    let mut k = (page.from / step).ceil();
    while k * step <= page.to + 1e-9 {
        if k * step >= axis.from().si() && k * step <= axis.to().si() {
            add(&mut list, k * step);
        }
        k += 1.0;
    }
    list.sort_by(f64::total_cmp);
    list
}

/// Value of a curve at a chainage; none outside of it.
pub(super) fn value_at(profile: &Profile, chainage: f64) -> Option<f64> {
    let points: Vec<(f64, f64)> =
        profile.md.iter().copied().zip(profile.values.iter().copied()).collect();
    points.windows(2).find_map(|w| match w {
        [(a, u), (b, v)] if chainage >= a - 1e-9 && chainage <= b + 1e-9 => {
            let share = if b - a > 0.0 { ((chainage - a) / (b - a)).clamp(0.0, 1.0) } else { 0.0 };
            Some(u + (v - u) * share)
        }
        _ => None,
    })
}

/// Force for planning at a chainage; where two runs meet the larger one.
fn force(subject: &Subject<'_>, renewal: &Renewal, what: &str, chainage: f64) -> Option<f64> {
    let profiles = &subject.assessment.profiles;
    let of = |k: usize| {
        let id = format!("burst.force.{what}.planning.{k}");
        value_at(profiles.iter().find(|p| p.id == id)?, chainage)
    };
    (1..=renewal.runs.len()).filter_map(of).reduce(f64::max)
}

pub(super) fn draw(
    subject: &Subject<'_>,
    renewal: &Renewal,
    page: &Page,
    view: &View,
    band: Rectangle,
    draft: &mut Draft,
) {
    let m = metre_symbol(subject);
    let kn = unit::KN.in_system(subject.system);
    let heads = [
        format!("Chainage, {m}"),
        format!("Ground level, {m}"),
        format!("Level of axis, {m}"),
        format!("Cover of new barrel, {m}"),
        format!("Force in string, {}", kn.symbol()),
        format!("Force at machine, {}", kn.symbol()),
        "Old main".to_owned(),
        "Direction of pull".to_owned(),
    ];
    let half = renewal.string.pipe.barrel_diameter().si() / 2.0;
    let row_at = |k: u32| band.top() - ROW * f64::from(k);
    let rule =
        |y: f64| Mark::line(Layer::Frame, Point::new(band.left(), y), Point::new(band.right(), y));
    draft.marks.push(rule(band.top()));
    for (k, words) in (0_u32..).zip(&heads) {
        let at = Point::new(band.left() + 1.0, row_at(k) - ROW / 2.0);
        draft.marks.push(Mark::text(Layer::Text, at, words.clone(), SMALL, Anchor::MiddleLeft));
        draft.marks.push(rule(row_at(k + 1)));
    }
    for x in [band.left(), band.left() + HEADS - 1.0, band.right()] {
        let (a, b) = (Point::new(x, band.top()), Point::new(x, band.top() - HEIGHT));
        draft.marks.push(Mark::line(Layer::Frame, a, b));
    }
    let paper = |x: f64| view.on_paper(Point::new(x, view.origin.y)).x;
    for x in stations(subject, renewal, page) {
        let chainage = Length::from_si(x);
        let ground = renewal.street.ground.level_extended(chainage).si();
        let axis = renewal.host.axis.level_extended(chainage).si();
        let show =
            |f: Option<f64>| f.map_or_else(|| "—".to_owned(), |f| format!("{:.0}", kn.from_si(f)));
        let figures = [
            two_decimals(subject, x),
            two_decimals(subject, ground),
            two_decimals(subject, axis),
            two_decimals(subject, ground - axis - half),
            show(force(subject, renewal, "string", x)),
            show(force(subject, renewal, "rig", x)),
        ];
        let at_x = paper(x);
        let tick = (Point::new(at_x, band.top()), Point::new(at_x, band.top() + 1.5));
        draft.marks.push(Mark::line(Layer::Grid, tick.0, tick.1));
        for (k, words) in (0_u32..).zip(figures) {
            let at = Point::new(at_x, row_at(k) - ROW / 2.0);
            draft.marks.push(Mark::text(Layer::Text, at, words, SMALL, Anchor::Middle));
        }
    }
    let mut bar = |k: u32, from: f64, to: f64, words: &str, arrow: Option<f64>| {
        let (a, b) = (paper(from), paper(to));
        for x in [a, b] {
            let ends = (Point::new(x, row_at(k)), Point::new(x, row_at(k + 1)));
            draft.marks.push(Mark::line(Layer::Frame, ends.0, ends.1));
        }
        let middle = row_at(k) - ROW / 2.0;
        let words = shortened(words, b - a - if arrow.is_some() { 14.0 } else { 2.0 });
        // An ellipsis alone says nothing; the words stand in the list and in the legend of stretches.
        if width_mm(&words, SMALL, false) < b - a && words != "…" {
            let at = Point::new(f64::midpoint(a, b), middle);
            draft.marks.push(Mark::text(Layer::Text, at, words, SMALL, Anchor::Middle));
        }
        if let Some(turn) = arrow
            && b - a > 8.0
        {
            for x in [a + 4.0, b - 4.0] {
                let at = Point::new(x, middle);
                draft
                    .marks
                    .push(Mark::symbol(Layer::Site, at, SymbolKind::Arrow, 3.0).turned(turn));
            }
        }
    };
    for s in &renewal.host.stretches {
        if let Some((a, b)) = page.part(s.from.si(), s.to.si()) {
            let words = format!(
                "{}, {} inside, wall {}",
                s.material.word(),
                length(subject, s.inside_diameter.si(), unit::MM),
                length(subject, s.wall.si(), unit::MM)
            );
            bar(6, a, b, &words, None);
        }
    }
    for run in &renewal.runs {
        let (from, to) = run.stretch();
        if let Some((a, b)) = page.part(from.si(), to.si()) {
            let turn = if run.machine > run.launch { 0.0 } else { std::f64::consts::PI };
            let pipe = &renewal.string.pipe;
            let words = format!(
                "run {}, {}: {} {}",
                run.name,
                length(subject, run.length().si(), unit::M),
                pipe.nominal(),
                pipe.class()
            );
            bar(7, a, b, &words, Some(turn));
        }
    }
}
