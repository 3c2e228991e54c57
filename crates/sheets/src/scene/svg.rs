//! Sheets as SVG: standalone, in millimetres, without script or reference to anything outside.

use std::collections::BTreeSet;
use std::fmt::Write;

use super::flat::{Onto, bend, flatten, swept};
use super::look::{Colour, DOT, STROKE};
use super::text::{CAPITAL, clean, has_all, width_mm};
use super::{Anchor, Layer, Mark, Pattern, Point, Shape, Sheet, Text};
use crate::font;

/// How an SVG is written.
#[derive(Debug, Clone, Copy, Default)]
pub struct SvgOptions<'a> {
    /// Whether the typeface comes with it.
    pub embed_font: bool,
    /// Beginning of all ids, so that several drawings can stand on one page: letters, digits and hyphens.
    pub prefix: &'a str,
}

/// A sheet as SVG.
#[must_use]
pub fn svg(sheet: &Sheet) -> String {
    svg_with(sheet, SvgOptions::default())
}

/// A sheet as SVG, written in a certain way.
#[must_use]
pub fn svg_with(sheet: &Sheet, options: SvgOptions<'_>) -> String {
    let prefix: String =
        options.prefix.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '-').collect();
    let mut page =
        Page { out: String::new(), height: sheet.height, prefix, patterns: BTreeSet::new() };
    for (index, view) in sheet.views.iter().enumerate() {
        let clip = format!("{}view-{}", page.prefix, index + 1);
        let frame = view.frame;
        page.add(&format!(
            "<clipPath id=\"{clip}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/></clipPath>\n",
            number(frame.left()),
            number(page.height - frame.top()),
            number(frame.width),
            number(frame.height)
        ));
        page.add(&format!(
            "<g class=\"view\" clip-path=\"url(#{clip})\"><title>{}</title>\n",
            escaped(&view.name)
        ));
        page.marks(view.marks.iter().flat_map(|m| flatten(m, Onto::View(view))));
        page.add("</g>\n");
    }
    page.add("<g class=\"sheet\">\n");
    page.marks(sheet.marks.iter().flat_map(|m| flatten(m, Onto::Paper)));
    page.add("</g>\n");

    let mut whole = String::with_capacity(page.out.len() + 4096);
    let (width, height) = (number(sheet.width), number(sheet.height));
    let id = &page.prefix;
    let _ = write!(
        whole,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"{id}title {id}desc\" \
         font-family=\"'{}', sans-serif\" fill=\"none\" stroke-linejoin=\"round\">\n\
         <title id=\"{id}title\">{}</title>\n<desc id=\"{id}desc\">{}</desc>\n",
        font::FAMILY,
        escaped(&sheet.title),
        escaped(&sheet.description)
    );
    if options.embed_font {
        whole.push_str("<style>");
        for (weight, data) in [(400, font::REGULAR), (600, font::SEMI_BOLD)] {
            let _ = write!(
                whole,
                "@font-face{{font-family:\"{}\";font-weight:{weight};src:url(data:font/ttf;base64,{})}}",
                font::FAMILY,
                base64(data)
            );
        }
        whole.push_str("</style>\n");
    }
    if !page.patterns.is_empty() {
        whole.push_str("<defs>\n");
        for &pattern in &page.patterns {
            whole.push_str(&tile(&page.prefix, pattern));
        }
        whole.push_str("</defs>\n");
    }
    let _ = writeln!(
        whole,
        "<rect class=\"paper\" width=\"{width}\" height=\"{height}\" fill=\"#ffffff\"/>"
    );
    whole.push_str(&page.out);
    whole.push_str("</svg>\n");
    whole
}

struct Page {
    out: String,
    height: f64,
    prefix: String,
    patterns: BTreeSet<Pattern>,
}

impl Page {
    fn add(&mut self, text: &str) {
        self.out.push_str(text);
    }

    /// Marks in their order; neighbours of one layer share a group.
    fn marks(&mut self, marks: impl Iterator<Item = Mark>) {
        let mut open = None;
        for mark in marks {
            if open != Some(mark.layer) {
                if open.is_some() {
                    self.add("</g>\n");
                }
                self.open(mark.layer);
                open = Some(mark.layer);
            }
            self.shape(&mark);
        }
        if open.is_some() {
            self.add("</g>\n");
        }
    }

    fn open(&mut self, layer: Layer) {
        let look = layer.look();
        let dashes = if look.dashes.is_empty() {
            String::new()
        } else {
            let list: Vec<String> = look.dashes.iter().map(|&d| number(d)).collect();
            format!(" stroke-dasharray=\"{}\"", list.join(" "))
        };
        let line = format!(
            "<g class=\"layer {}\" stroke=\"{}\" stroke-width=\"{}\"{dashes}>\n",
            layer.class(),
            hex(look.colour),
            number(look.width)
        );
        self.add(&line);
    }

    fn place(&self, p: Point) -> String {
        format!("{} {}", number(p.x), number(self.height - p.y))
    }

    fn course(&self, points: &[Point], closed: bool) -> Option<String> {
        if points.len() < 2 || !points.iter().all(|p| p.x.is_finite() && p.y.is_finite()) {
            return None;
        }
        let places: Vec<String> = points.iter().map(|&p| self.place(p)).collect();
        Some(format!("M{}{}", places.join("L"), if closed { "Z" } else { "" }))
    }

    fn shape(&mut self, mark: &Mark) {
        let line = match &mark.shape {
            Shape::Path { points, closed } => {
                self.course(points, *closed).map(|d| format!("<path d=\"{d}\"/>\n"))
            }
            Shape::Circle { centre, radius } => self.circle(*centre, *radius),
            Shape::Arc { centre, radius, from, to } => self.arc(*centre, *radius, *from, *to),
            Shape::Area { rings, pattern } => self.area(mark.layer, rings, *pattern),
            Shape::Text(text) => self.text(mark.layer, text),
            // Taken apart before.
            Shape::Dimension(_) | Shape::Symbol { .. } => None,
        };
        if let Some(line) = line {
            self.add(&line);
        }
    }

    fn circle(&self, centre: Point, radius: f64) -> Option<String> {
        (centre.x.is_finite() && centre.y.is_finite() && radius.is_finite()).then(|| {
            format!(
                "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n",
                number(centre.x),
                number(self.height - centre.y),
                number(radius)
            )
        })
    }

    fn arc(&self, centre: Point, radius: f64, from: f64, to: f64) -> Option<String> {
        let sweep = swept(from, to);
        let ends = bend(centre, radius, from, to);
        let (first, last) = (ends.first()?, ends.last()?);
        if !(first.x.is_finite() && first.y.is_finite() && last.x.is_finite() && last.y.is_finite())
        {
            return None;
        }
        if sweep > 6.2 {
            return self.circle(centre, radius);
        }
        let large = i32::from(sweep > std::f64::consts::PI);
        let radius = number(radius);
        Some(format!(
            "<path d=\"M{}A{radius} {radius} 0 {large} 0 {}\"/>\n",
            self.place(*first),
            self.place(*last)
        ))
    }

    fn area(&mut self, layer: Layer, rings: &[Vec<Point>], pattern: Pattern) -> Option<String> {
        let courses: Vec<String> = rings.iter().filter_map(|r| self.course(r, true)).collect();
        if courses.is_empty() {
            return None;
        }
        let fill = match pattern {
            Pattern::Solid => hex(layer.look().colour),
            Pattern::Blank => hex(pattern.ground()),
            _ => {
                self.patterns.insert(pattern);
                format!("url(#{}{})", self.prefix, id_of(pattern))
            }
        };
        Some(format!(
            "<path d=\"{}\" fill=\"{fill}\" fill-rule=\"evenodd\" stroke=\"none\"/>\n",
            courses.join("")
        ))
    }

    fn text(&self, layer: Layer, text: &Text) -> Option<String> {
        let words = clean(&text.words);
        let sound = [text.at.x, text.at.y, text.height, text.turn].iter().all(|v| v.is_finite());
        if words.is_empty() || !sound {
            return None;
        }
        let (down, across) = lie(text.anchor);
        let drop = down * text.height;
        let turned = if text.turn.abs() < 1e-9 {
            format!("translate({})", self.place(text.at))
        } else {
            format!(
                "translate({}) rotate({})",
                self.place(text.at),
                number(-text.turn.to_degrees())
            )
        };
        let mut out = String::new();
        if text.on_patch {
            let width = width_mm(&words, text.height, text.bold);
            let (pad, x) = (0.25 * text.height, -across * width);
            let _ = writeln!(
                out,
                "<rect transform=\"{turned}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" \
                 fill=\"#ffffff\" stroke=\"none\"/>",
                number(x - pad),
                number(drop - text.height - pad),
                number(width + 2.0 * pad),
                number(text.height + 2.0 * pad)
            );
        }
        let anchor = match across {
            a if a > 0.75 => " text-anchor=\"end\"",
            a if a > 0.25 => " text-anchor=\"middle\"",
            _ => "",
        };
        // A viewer without our typeface takes another, which must not reach into the next box.
        let fit = if has_all(&words) {
            let width = number(width_mm(&words, text.height, text.bold));
            format!(" textLength=\"{width}\" lengthAdjust=\"spacingAndGlyphs\"")
        } else {
            String::new()
        };
        let weight = if text.bold { " font-weight=\"600\"" } else { "" };
        let _ = writeln!(
            out,
            "<text transform=\"{turned}\" y=\"{}\" font-size=\"{}\"{anchor}{weight}{fit} fill=\"{}\" \
             stroke=\"none\">{}</text>",
            number(drop),
            number(text.height / CAPITAL),
            hex(layer.look().colour),
            escaped(&words)
        );
        Some(out)
    }
}

/// How far the base line lies below the anchor, in heights of a capital letter, and which part of the words lies to its
/// left.
pub(super) const fn lie(anchor: Anchor) -> (f64, f64) {
    match anchor {
        Anchor::Left => (0.0, 0.0),
        Anchor::Centre => (0.0, 0.5),
        Anchor::Right => (0.0, 1.0),
        Anchor::MiddleLeft => (0.5, 0.0),
        Anchor::Middle => (0.5, 0.5),
        Anchor::MiddleRight => (0.5, 1.0),
        Anchor::TopLeft => (1.0, 0.0),
        Anchor::TopCentre => (1.0, 0.5),
        Anchor::TopRight => (1.0, 1.0),
    }
}

fn id_of(pattern: Pattern) -> String {
    pattern.name().to_lowercase().replace(", ", "-").replace(' ', "-")
}

fn tile(prefix: &str, pattern: Pattern) -> String {
    let Some(tile) = pattern.tile() else { return String::new() };
    let mut out = String::new();
    let (width, height) = (number(tile.width), number(tile.height));
    let ink = hex(pattern.ink());
    let _ = write!(
        out,
        "<pattern id=\"{prefix}{}\" patternUnits=\"userSpaceOnUse\" width=\"{width}\" height=\"{height}\">\
         <rect width=\"{width}\" height=\"{height}\" fill=\"{}\"/>",
        id_of(pattern),
        hex(pattern.ground())
    );
    let strokes: Vec<String> = tile
        .strokes
        .iter()
        .map(|(a, b)| {
            let y = |p: &Point| number(tile.height - p.y);
            format!("M{} {}L{} {}", number(a.x), y(a), number(b.x), y(b))
        })
        .collect();
    if !strokes.is_empty() {
        let _ = write!(
            out,
            "<path d=\"{}\" fill=\"none\" stroke=\"{ink}\" stroke-width=\"{STROKE}\"/>",
            strokes.join("")
        );
    }
    for dot in &tile.dots {
        let _ = write!(
            out,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{DOT}\" fill=\"{ink}\"/>",
            number(dot.x),
            number(tile.height - dot.y)
        );
    }
    out.push_str("</pattern>\n");
    out
}

/// A length in mm to a micrometre, without trailing zeros.
fn number(value: f64) -> String {
    let mut text = format!("{:.3}", if value.is_finite() { value } else { 0.0 });
    text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    if text == "-0" { "0".to_owned() } else { text }
}

fn hex([r, g, b]: Colour) -> String {
    format!("#{r:02x}{g:02x}{b:02x}")
}

/// Words for XML: cleaned, with the five signs that mean something written as entities.
#[must_use]
pub fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in clean(words).chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            _ => out.push(c),
        }
    }
    out
}

/// Bytes in base 64 (RFC 4648, section 4).
fn base64(data: &[u8]) -> String {
    const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::with_capacity(data.len().div_ceil(3) * 4);
    for chunk in data.chunks(3) {
        let byte = |i: usize| u32::from(chunk.get(i).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for place in 0..4_usize {
            let index = (bits >> (18 - 6 * place)) & 63;
            let digit = DIGITS.get(index as usize).copied().unwrap_or(b'=');
            out.push(if place > chunk.len() { '=' } else { char::from(digit) });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_in_base_64_are_those_of_the_standard() {
        for (plain, coded) in
            [("", ""), ("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foobar", "Zm9vYmFy")]
        {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }

    #[test]
    fn numbers_are_short() {
        assert_eq!(number(1.5), "1.5");
        assert_eq!(number(-0.0001), "0");
        assert_eq!(number(10.0), "10");
        assert_eq!(number(f64::NAN), "0");
    }
}
