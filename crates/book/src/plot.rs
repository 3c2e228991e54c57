//! A simple plot as SVG: curves along the bore, told apart by line style, so that a grey print says the same.

use std::fmt::Write as _;

/// How a curve is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Style {
    /// What acts.
    Heavy,
    /// A second value that acts.
    Thin,
    /// A limit.
    Dashed,
    /// A weaker limit, or a comparison.
    Dotted,
    /// A further comparison.
    Mixed,
}

impl Style {
    /// Width in mm, dashes in mm, colour.
    const fn look(self) -> (f64, &'static str, &'static str) {
        match self {
            Style::Heavy => (0.5, "none", "#12304f"),
            Style::Thin => (0.25, "none", "#12304f"),
            Style::Dashed => (0.4, "2.4 1.2", "#8a1f11"),
            Style::Dotted => (0.4, "0.4 1.1", "#333333"),
            Style::Mixed => (0.3, "3 0.9 0.5 0.9", "#333333"),
        }
    }
}

/// One curve, in the units of the reader.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Curve {
    /// What it shows.
    pub(crate) name: String,
    /// How it is drawn.
    pub(crate) style: Style,
    /// Its points.
    pub(crate) points: Vec<(f64, f64)>,
}

/// A plot, in the units of the reader.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Plot {
    /// What runs to the right, with its unit.
    pub(crate) across: String,
    /// What runs upwards, with its unit.
    pub(crate) up: String,
    /// Curves; limits that do not change are curves of two points.
    pub(crate) curves: Vec<Curve>,
    /// The place to look at, with its words.
    pub(crate) worst: Option<(f64, f64, String)>,
    /// Values above this one are not shown; the key says so.
    pub(crate) top: Option<f64>,
}

/// Size of a plot, mm.
const WIDTH: f64 = 168.0;
const HEIGHT: f64 = 58.0;
const LEFT: f64 = 17.0;
const RIGHT: f64 = 3.0;
const TOP: f64 = 3.0;
const BOTTOM: f64 = 10.0;
/// Height of a line of the key, mm.
const KEY_LINE: f64 = 4.6;
/// Columns of the key.
const KEY_COLUMNS: usize = 2;

/// A scale between two values with round steps.
struct Axis {
    from: f64,
    to: f64,
    step: f64,
}

impl Axis {
    /// About `wanted` steps of 1, 2 or 5 times a power of ten around the values.
    fn round(low: f64, high: f64, wanted: f64) -> Self {
        let span = (high - low).max(1e-9_f64.max(high.abs() * 1e-6));
        let raw = span / wanted;
        let power = 10f64.powf(raw.log10().floor());
        let step =
            [1.0, 2.0, 5.0].iter().map(|f| f * power).find(|s| *s >= raw).unwrap_or(10.0 * power);
        Self { from: (low / step).floor() * step, to: (high / step).ceil() * step, step }
    }

    fn ticks(&self) -> Vec<f64> {
        let count = ((self.to - self.from) / self.step).round().clamp(1.0, 60.0);
        let mut list = Vec::new();
        let mut k = 0.0;
        while k <= count {
            list.push(self.from + k * self.step);
            k += 1.0;
        }
        list
    }

    fn words(&self, value: f64) -> String {
        let tidy = (value / self.step).round() * self.step;
        quantity::significant(tidy, 6)
    }

    fn share(&self, value: f64) -> f64 {
        (value - self.from) / (self.to - self.from)
    }
}

impl Plot {
    /// The plot as SVG; `None` where no curve has two points.
    pub(crate) fn svg(&self) -> Option<String> {
        let drawn: Vec<&Curve> = self.curves.iter().filter(|c| c.points.len() > 1).collect();
        let all = || drawn.iter().flat_map(|c| c.points.iter());
        let least = |of: fn(&(f64, f64)) -> f64| all().map(of).reduce(f64::min);
        let most = |of: fn(&(f64, f64)) -> f64| all().map(of).reduce(f64::max);
        let (left, right) = (least(|p| p.0)?, most(|p| p.0)?);
        let (mut low, mut high) = (least(|p| p.1)?, most(|p| p.1)?);
        (low, high) = (low.min(0.0), high.max(0.0));
        if let Some(top) = self.top {
            high = high.min(top.max(low + 1e-9));
        }
        if high - low < 1e-12 {
            high = low + 1.0;
        }
        let (across, up) = (Axis::round(left, right, 10.0), Axis::round(low, high, 5.0));
        let key = f64::from(u32::try_from(drawn.len().div_ceil(KEY_COLUMNS)).ok()?) * KEY_LINE;
        let height = HEIGHT + key;
        let x = |v: f64| LEFT + across.share(v) * (WIDTH - LEFT - RIGHT);
        let y = |v: f64| HEIGHT - BOTTOM - up.share(v) * (HEIGHT - TOP - BOTTOM);
        let mut out = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{WIDTH}mm\" height=\"{height}mm\" viewBox=\"0 0 {WIDTH} {height}\" font-family=\"Source Sans 3\" font-size=\"2.9\">"
        );
        let (x0, x1, y0, y1) = (x(across.from), x(across.to), y(up.from), y(up.to));
        for tick in across.ticks() {
            let at = x(tick);
            line(&mut out, (at, y0), (at, y1), 0.1, "#b8b8b8");
            words(&mut out, (at, y0 + 3.6), "middle", &across.words(tick));
        }
        for tick in up.ticks() {
            let at = y(tick);
            line(&mut out, (x0, at), (x1, at), 0.1, "#b8b8b8");
            words(&mut out, (x0 - 1.2, at + 1.0), "end", &up.words(tick));
        }
        for (from, to) in [((x0, y0), (x1, y0)), ((x0, y0), (x0, y1))] {
            line(&mut out, from, to, 0.25, "#000000");
        }
        if up.from < 0.0 && up.to > 0.0 {
            line(&mut out, (x0, y(0.0)), (x1, y(0.0)), 0.25, "#000000");
        }
        words(&mut out, (f64::midpoint(x0, x1), y0 + 7.6), "middle", &self.across);
        let _ = write!(
            out,
            "<text transform=\"translate(3.2 {:.2}) rotate(-90)\" text-anchor=\"middle\">{}</text>",
            f64::midpoint(y0, y1),
            escaped(&self.up)
        );
        let frame = format!(
            "<clipPath id=\"frame\"><rect x=\"{x0:.2}\" y=\"{y1:.2}\" width=\"{:.2}\" height=\"{:.2}\"/></clipPath><g clip-path=\"url(#frame)\">",
            x1 - x0,
            y0 - y1
        );
        out.push_str(&frame);
        for curve in &drawn {
            path(&mut out, curve, &x, &y);
        }
        out.push_str("</g>");
        if let Some((at, value, text)) = &self.worst {
            let (cx, cy) = (x(*at), y(*value));
            let _ = write!(
                out,
                "<circle cx=\"{cx:.2}\" cy=\"{cy:.2}\" r=\"1.1\" fill=\"#ffffff\" stroke=\"#000000\" stroke-width=\"0.3\"/>"
            );
            let (anchor, tx) =
                if across.share(*at) > 0.6 { ("end", cx - 2.0) } else { ("start", cx + 2.0) };
            let ty = if up.share(*value) > 0.85 { cy + 4.4 } else { cy - 1.8 };
            let _ = write!(
                out,
                "<text x=\"{tx:.2}\" y=\"{ty:.2}\" text-anchor=\"{anchor}\" stroke=\"#ffffff\" stroke-width=\"0.9\" stroke-linejoin=\"round\">{0}</text><text x=\"{tx:.2}\" y=\"{ty:.2}\" text-anchor=\"{anchor}\">{0}</text>",
                escaped(text)
            );
        }
        key_of(&mut out, &drawn);
        out.push_str("</svg>");
        Some(out)
    }
}

fn key_of(out: &mut String, drawn: &[&Curve]) {
    let column = (WIDTH - LEFT) / 2.0;
    let (mut row, mut place) = (0.0, 0);
    for curve in drawn {
        let (width, dashes, colour) = curve.style.look();
        let at = LEFT + if place == 0 { 0.0 } else { column };
        let level = HEIGHT + 2.4 + row * KEY_LINE;
        let _ = write!(
            out,
            "<path d=\"M{at:.2} {level:.2}h10\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{width}\" stroke-dasharray=\"{dashes}\"/>"
        );
        words(out, (at + 11.5, level + 1.0), "start", &curve.name);
        place += 1;
        if place == KEY_COLUMNS {
            (place, row) = (0, row + 1.0);
        }
    }
}

fn path(out: &mut String, curve: &Curve, x: &dyn Fn(f64) -> f64, y: &dyn Fn(f64) -> f64) {
    let (width, dashes, colour) = curve.style.look();
    let mut gaps: Vec<f64> = curve.points.windows(2).map(|w| w[1].0 - w[0].0).collect();
    gaps.sort_by(f64::total_cmp);
    // Where a curve has no value its points are left out: it is not drawn across.
    let usual = gaps.get(gaps.len() / 2).copied().unwrap_or(0.0);
    let mut d = String::new();
    let mut before: Option<f64> = None;
    for (px, py) in &curve.points {
        let joined = before.is_some_and(|b| px - b <= 6.0 * usual + 1e-9);
        let _ = write!(d, "{}{:.2} {:.2}", if joined { "L" } else { "M" }, x(*px), y(*py));
        before = Some(*px);
    }
    let _ = write!(
        out,
        "<path d=\"{d}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{width}\" stroke-dasharray=\"{dashes}\" stroke-linejoin=\"round\"/>"
    );
}

fn line(out: &mut String, from: (f64, f64), to: (f64, f64), width: f64, colour: &str) {
    let _ = write!(
        out,
        "<path d=\"M{:.2} {:.2}L{:.2} {:.2}\" stroke=\"{colour}\" stroke-width=\"{width}\"/>",
        from.0, from.1, to.0, to.1
    );
}

fn words(out: &mut String, at: (f64, f64), anchor: &str, text: &str) {
    let _ = write!(
        out,
        "<text x=\"{:.2}\" y=\"{:.2}\" text-anchor=\"{anchor}\">{}</text>",
        at.0,
        at.1,
        escaped(text)
    );
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plot(points: Vec<(f64, f64)>, top: Option<f64>) -> Plot {
        Plot {
            across: "place, m".to_owned(),
            up: "kN".to_owned(),
            curves: vec![Curve { name: "a < b & \"c\"".to_owned(), style: Style::Heavy, points }],
            worst: Some((1.0, 2.0, "2 kN at 1 m".to_owned())),
            top,
        }
    }

    #[test]
    fn scales_have_round_steps_around_all_values() {
        let axis = Axis::round(0.0, 291.7, 10.0);
        assert_eq!((axis.from, axis.to, axis.step), (0.0, 300.0, 50.0));
        assert_eq!(axis.ticks().len(), 7);
        let small = Axis::round(-0.013, 0.004, 5.0);
        assert!(small.from <= -0.013 && small.to >= 0.004);
        assert_eq!(small.words(small.step), "0.005");
    }

    #[test]
    fn names_cannot_break_the_picture_and_a_curve_needs_two_points() {
        let svg = plot(vec![(0.0, 1.0), (2.0, 3.0)], None).svg().unwrap();
        assert!(svg.contains("a &lt; b &amp; &quot;c&quot;"));
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
        assert!(plot(vec![(0.0, 1.0)], None).svg().is_none());
        assert!(plot(vec![(0.0, 0.0), (1.0, 0.0)], None).svg().is_some_and(|s| !s.contains("NaN")));
    }

    #[test]
    fn a_curve_is_not_drawn_across_where_it_has_no_value() {
        let points: Vec<(f64, f64)> =
            (0..40).filter(|k| !(10..30).contains(k)).map(|k| (f64::from(k), 1.0)).collect();
        let svg = plot(points, None).svg().unwrap();
        let curve = svg.split("<path d=\"").find(|part| part.matches('L').count() > 5).unwrap();
        assert_eq!(curve.split('"').next().unwrap().matches('M').count(), 2);
    }

    #[test]
    fn the_scale_ends_at_the_top() {
        let svg = plot(vec![(0.0, 1.0), (2.0, 4000.0)], Some(50.0)).svg().unwrap();
        assert!(svg.contains(">50<") && !svg.contains(">4000<"));
    }
}
