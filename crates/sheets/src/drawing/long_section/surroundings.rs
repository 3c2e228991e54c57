//! Levels, ground line, water, required cover and end zones.

use quantity::Length;

use super::Section;
use crate::drawing::key::Swatch;
use crate::drawing::labels::{Extent, Prefer};
use crate::drawing::reader::multiples;
use crate::scene::{Anchor, Layer, Mark, Pattern, Point, SymbolKind};

/// Distance of the levels of the grid, m.
pub(super) fn level_step(section: &Section<'_>) -> f64 {
    section.reader.step(section.canvas.view.up(8.0))
}

/// Levels of the grid.
pub(super) fn grid_levels(section: &Section<'_>) -> Vec<f64> {
    let (low, high) = section.canvas.levels();
    multiples(low, high, level_step(section))
}

/// Lines of level.
pub(super) fn grid(section: &mut Section<'_>) {
    let (from, to) = section.canvas.across();
    for level in grid_levels(section) {
        let ends = (Point::new(from, level), Point::new(to, level));
        section.canvas.push(Mark::line(Layer::Grid, ends.0, ends.1));
    }
}

/// Corners of the ground line in the view, with its ends.
fn ground_points(section: &Section<'_>) -> Vec<Point> {
    let ground = &section.project.site.ground;
    let (left, right) = section.canvas.across();
    let (from, to) = (left.max(ground.from().si()), right.min(ground.to().si()));
    if to <= from {
        return Vec::new();
    }
    let mut places = vec![from];
    places.extend(ground.points().map(|(x, _)| x.si()).filter(|x| *x > from && *x < to));
    places.push(to);
    let level = |x: f64| ground.level_extended(Length::from_si(x)).si();
    places.into_iter().map(|x| Point::new(x, level(x))).collect()
}

/// The ground line.
pub(super) fn ground(section: &mut Section<'_>) {
    let points = ground_points(section);
    if points.len() > 1 {
        section.canvas.avoid(&points);
        section.canvas.push(Mark::path(Layer::Ground, points));
        section.key.push((Swatch::Line(Layer::Ground), "ground".to_owned()));
    }
}

/// Stretches of the ground below or above a level, with the corners of the ground between.
fn stretches(points: &[Point], level: f64, below: bool) -> Vec<Vec<Point>> {
    let wet = |p: &Point| if below { p.y < level } else { p.y >= level };
    let (mut list, mut open): (Vec<Vec<Point>>, Vec<Point>) = (Vec::new(), Vec::new());
    for pair in points.windows(2) {
        let [a, b] = pair else { continue };
        if wet(a) && open.is_empty() {
            open.push(*a);
        }
        if wet(a) != wet(b) {
            let share = (level - a.y) / (b.y - a.y);
            open.push(Point::new(a.x + share * (b.x - a.x), level));
        }
        if wet(b) {
            open.push(*b);
        } else if open.len() > 1 {
            list.push(std::mem::take(&mut open));
        } else {
            open.clear();
        }
    }
    if open.len() > 1 {
        list.push(open);
    }
    list
}

/// Free water, low water and groundwater.
pub(super) fn water(section: &mut Section<'_>) {
    let points = ground_points(section);
    let site = &section.project.site;
    let (free, low, table) = (site.free_water_level, site.low_water_level, site.groundwater_level);
    if let Some(level) = free.map(Length::si) {
        let pools = stretches(&points, level, true);
        if !pools.is_empty() {
            section
                .key
                .push((Swatch::Filling(Layer::Water, Pattern::Water), "free water".to_owned()));
        }
        for mut pool in pools {
            if let (Some(a), Some(b)) = (pool.first().copied(), pool.last().copied()) {
                pool.insert(0, Point::new(a.x, level));
                pool.push(Point::new(b.x, level));
                section.canvas.push(Mark::area(Layer::Water, pool, Pattern::Water));
                surface(section, a.x, b.x, level, "free water");
            }
        }
    }
    if let Some(level) = low.map(Length::si) {
        for pool in stretches(&points, level, true) {
            if let (Some(a), Some(b)) = (pool.first(), pool.last()) {
                surface(section, a.x, b.x, level, "low water");
            }
        }
    }
    if let Some(level) = table.map(Length::si) {
        for dry in stretches(&points, level, false) {
            if let (Some(a), Some(b)) = (dry.first(), dry.last()) {
                surface(section, a.x, b.x, level, "groundwater");
            }
        }
        section.key.push((
            Swatch::Sign(Layer::Water, SymbolKind::WaterLevel),
            "level of water".to_owned(),
        ));
    }
}

fn surface(section: &mut Section<'_>, from: f64, to: f64, level: f64, name: &str) {
    let ends = (Point::new(from, level), Point::new(to, level));
    section.canvas.push(Mark::line(Layer::Water, ends.0, ends.1));
    let share = if name == "low water" { 0.62 } else { 0.4 };
    let at = Point::new(from + share * (to - from), level);
    let mm = (to - from) / section.canvas.view.across(1.0);
    if mm > 4.0 && section.canvas.shows(at) {
        section.canvas.push(Mark::symbol(Layer::Water, at, SymbolKind::WaterLevel, 2.6));
        let above = Point::new(at.x, level + section.canvas.view.up(1.3));
        section.canvas.take_sign(above, 2.8);
    }
}

/// Required cover, and the end zones in which none is required.
pub(super) fn zones(section: &mut Section<'_>) {
    let site = &section.project.site;
    let run = section.project.line.run().si();
    let (from, to) = (site.end_zone_entry.si(), run - site.end_zone_exit.si());
    let cover = site.required_cover.si();
    let reader = section.reader;
    let level = |x: f64| site.ground.level_extended(Length::from_si(x)).si() - cover;
    let (left, right) = section.canvas.across();
    let (a, b) = (from.max(left), to.min(right));
    if to > from && b > a {
        let corners = ground_points(section).into_iter().filter(|p| p.x > a && p.x < b);
        let mut points = vec![Point::new(a, level(a))];
        points.extend(corners.map(|p| Point::new(p.x, p.y - cover)));
        points.push(Point::new(b, level(b)));
        section.canvas.avoid(&points);
        section.canvas.push(Mark::path(Layer::Clearance, points));
        let words =
            format!("required cover {} and required clearance of obstacles", reader.length(cover));
        section.key.push((Swatch::Line(Layer::Clearance), words));
    }
    // A rule along the upper edge says which stretch is which.
    let frame = section.canvas.frame();
    let y = frame.top() - 5.2;
    let rule = section.canvas.real(Point::new(frame.left(), y)).y;
    let zone =
        |length: f64| vec![format!("end zone {}", reader.length(length)), "end zone".to_owned()];
    let parts = if from > to {
        // End zones that overlap would be written over each other: they share one rule.
        let (entry, exit) = (reader.length(from), reader.length(run - to));
        let words = format!("end zones {entry} and {exit}: cover is checked nowhere");
        vec![(0.0, run, vec![words, "end zones".to_owned()])]
    } else {
        let needed =
            vec![format!("cover of {} required", reader.length(cover)), "cover".to_owned()];
        vec![(0.0, from, zone(from)), (from, to, needed), (to, run, zone(run - to))]
    };
    for (from, to, words) in parts {
        let (a, b) = (from.max(section.page.from), to.min(section.page.to));
        if b - a < 1e-6 {
            continue;
        }
        section.canvas.push(Mark::line(Layer::Clearance, Point::new(a, rule), Point::new(b, rule)));
        let tick = section.canvas.view.up(1.2);
        for x in [a, b] {
            let ends = (Point::new(x, rule - tick), Point::new(x, rule + tick));
            section.canvas.push(Mark::line(Layer::Clearance, ends.0, ends.1));
        }
        let middle = section.canvas.view.on_paper(Point::new(f64::midpoint(a, b), rule));
        let at = Point::new(middle.x, middle.y + 1.4);
        let room = (b - a) / section.canvas.view.across(1.0) - 1.0;
        let height = crate::drawing::canvas::SMALL;
        let fits =
            words.into_iter().find(|w| crate::scene::text::width_mm(w, height, false) <= room);
        if let Some(words) = fits {
            let extent = Extent::of_words(at, &words, height, Anchor::Centre, false);
            section.canvas.labels.take(extent);
            section.canvas.push_paper(Mark::text(Layer::Text, at, words, height, Anchor::Centre));
        }
    }
    section.canvas.labels.take(Extent {
        left: frame.left(),
        right: frame.right(),
        bottom: y - 1.4,
        top: frame.top(),
    });
}

/// Lines at which sheets join.
pub(super) fn match_lines(section: &mut Section<'_>) {
    if section.page.overview {
        return;
    }
    let run = section.project.line.run().si();
    let (low, high) = section.canvas.levels();
    for (x, sheet) in section.page.neighbours(run).into_iter().flatten() {
        section.canvas.push(Mark::line(Layer::Frame, Point::new(x, low), Point::new(x, high)));
        let at = Point::new(x, low + section.canvas.view.up(2.6));
        let words = format!("match line {}, sheet {sheet}", section.reader.place(x));
        section.canvas.label_within(at, &[words], Prefer::Above, 20.0);
    }
}

/// Words on water and cover.
pub(super) fn labels(section: &mut Section<'_>) {
    let points = ground_points(section);
    let site = &section.project.site;
    let reader = section.reader;
    let levels = [
        ("free water", site.free_water_level, true, 0.4),
        ("low water", site.low_water_level, true, 0.62),
        ("groundwater", site.groundwater_level, false, 0.4),
    ];
    for (name, level, below, share) in levels {
        let Some(level) = level.map(Length::si) else { continue };
        let longest = stretches(&points, level, below).into_iter().max_by(|a, b| {
            let length =
                |s: &[Point]| s.last().map_or(0.0, |p| p.x) - s.first().map_or(0.0, |p| p.x);
            length(a).total_cmp(&length(b))
        });
        if let Some((a, b)) = longest.and_then(|s| Some((s.first()?.x, s.last()?.x))) {
            let at = Point::new(a + share * (b - a), level);
            let words = format!("{name} {}", reader.place(level));
            section.canvas.label_within(at, &[words], Prefer::Above, 42.0);
        }
    }
}
