//! How layers and patterns look.
//!
//! Hues follow the set of eight that Okabe and Ito proposed for readers of all kinds of colour vision (2008), darkened until
//! each line stands out from white paper. Width and line type tell layers apart where no colour is left.

use super::{Layer, Pattern, Point};

/// A colour: red, green, blue.
pub type Colour = [u8; 3];

/// How marks of a layer look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Colour of lines and words.
    pub colour: Colour,
    /// Width of lines, mm; one of the series of ISO 128 and of the widths DXF knows.
    pub width: f64,
    /// Dash, gap, dash, gap …, mm; empty for a full line.
    pub dashes: &'static [f64],
    /// Colour by number of the colour index of DXF: a hue near the colour that is legible on a white and on a black screen.
    pub index: u8,
}

const DASHED: &[f64] = &[3.0, 1.5];
const SHORT: &[f64] = &[1.5, 1.0];
const CHAIN: &[f64] = &[7.0, 1.3, 0.8, 1.3];
const LONG: &[f64] = &[6.0, 1.5];

impl Layer {
    /// All layers.
    pub const ALL: [Layer; 15] = [
        Layer::Frame,
        Layer::Grid,
        Layer::Ground,
        Layer::Water,
        Layer::Strata,
        Layer::Boring,
        Layer::Obstacle,
        Layer::Clearance,
        Layer::Bore,
        Layer::Axis,
        Layer::Pipe,
        Layer::Host,
        Layer::Site,
        Layer::Dimension,
        Layer::Text,
    ];

    /// Its name, in a list of layers.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Layer::Frame => "Frame",
            Layer::Grid => "Grid",
            Layer::Ground => "Ground line",
            Layer::Water => "Water levels",
            Layer::Strata => "Strata",
            Layer::Boring => "Borings",
            Layer::Obstacle => "Obstacles",
            Layer::Clearance => "Clearances",
            Layer::Bore => "Bore wall",
            Layer::Axis => "Bore axis",
            Layer::Pipe => "Pipe",
            Layer::Host => "Old main",
            Layer::Site => "Site works",
            Layer::Dimension => "Dimensions",
            Layer::Text => "Text",
        }
    }

    /// Its name in a class of a page: `bore-wall`.
    #[must_use]
    pub fn class(self) -> String {
        self.name().to_lowercase().replace(' ', "-")
    }

    /// How its marks look.
    #[must_use]
    pub const fn look(self) -> Look {
        let (colour, width, dashes, index): (Colour, f64, &'static [f64], u8) = match self {
            Layer::Frame => ([0x22, 0x22, 0x22], 0.35, &[], 7),
            Layer::Grid => ([0x80, 0x80, 0x80], 0.13, &[], 8),
            Layer::Ground => ([0x6B, 0x42, 0x14], 0.5, &[], 32),
            Layer::Water => ([0x00, 0x5F, 0x99], 0.25, LONG, 142),
            Layer::Strata => ([0x66, 0x55, 0x44], 0.18, &[], 45),
            Layer::Boring => ([0x40, 0x40, 0x40], 0.25, &[], 7),
            Layer::Obstacle => ([0xA8, 0x3C, 0x00], 0.4, &[], 20),
            Layer::Clearance => ([0xA3, 0x3B, 0x7C], 0.25, SHORT, 233),
            Layer::Bore => ([0x00, 0x6B, 0x4F], 0.3, &[], 122),
            Layer::Axis => ([0x11, 0x11, 0x11], 0.18, CHAIN, 7),
            Layer::Pipe => ([0x0B, 0x30, 0x54], 0.6, &[], 150),
            Layer::Host => ([0x8A, 0x5A, 0x00], 0.35, DASHED, 42),
            Layer::Site => ([0x50, 0x50, 0x50], 0.35, &[], 8),
            Layer::Dimension => ([0x33, 0x33, 0x33], 0.15, &[], 7),
            Layer::Text => ([0x1A, 0x1A, 0x1A], 0.2, &[], 7),
        };
        Look { colour, width, dashes, index }
    }
}

/// What is repeated to fill an area. Strokes run level, upright or along a diagonal of the tile, so that a list of line
/// families says the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Tile {
    /// Width, mm of paper.
    pub width: f64,
    /// Height, mm of paper.
    pub height: f64,
    /// Strokes from point to point; y upwards.
    pub strokes: Vec<(Point, Point)>,
    /// Dots.
    pub dots: Vec<Point>,
}

/// Width of the strokes of patterns, mm.
pub const STROKE: f64 = 0.15;
/// Radius of the dots of patterns, mm.
pub const DOT: f64 = 0.22;

impl Pattern {
    /// All patterns.
    pub const ALL: [Pattern; 14] = [
        Pattern::SoftClay,
        Pattern::StiffClay,
        Pattern::Silt,
        Pattern::Sand,
        Pattern::Gravel,
        Pattern::Peat,
        Pattern::Fill,
        Pattern::Rock,
        Pattern::Water,
        Pattern::Iron,
        Pattern::Mortar,
        Pattern::Fluid,
        Pattern::Solid,
        Pattern::Blank,
    ];

    /// What it stands for.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Pattern::SoftClay => "Soft fine soil",
            Pattern::StiffClay => "Stiff fine soil",
            Pattern::Silt => "Silt",
            Pattern::Sand => "Sand",
            Pattern::Gravel => "Gravel",
            Pattern::Peat => "Peat, organic soil",
            Pattern::Fill => "Fill, topsoil",
            Pattern::Rock => "Rock",
            Pattern::Water => "Free water",
            Pattern::Iron => "Iron, cut",
            Pattern::Mortar => "Mortar, cut",
            Pattern::Fluid => "Drilling fluid",
            Pattern::Solid => "Solid",
            Pattern::Blank => "Blank",
        }
    }

    /// Colour below the strokes: light, so that lines over it stay legible.
    #[must_use]
    pub const fn ground(self) -> Colour {
        match self {
            Pattern::SoftClay => [0xF1, 0xEC, 0xE6],
            Pattern::StiffClay => [0xE9, 0xE0, 0xD5],
            Pattern::Silt => [0xF3, 0xF0, 0xE2],
            Pattern::Sand => [0xFB, 0xF5, 0xDF],
            Pattern::Gravel => [0xF6, 0xEC, 0xD9],
            Pattern::Peat => [0xE6, 0xE4, 0xDC],
            Pattern::Fill => [0xEE, 0xEE, 0xEE],
            Pattern::Rock => [0xE8, 0xE9, 0xEC],
            Pattern::Water => [0xE3, 0xF1, 0xFA],
            Pattern::Iron => [0xE2, 0xE8, 0xEE],
            Pattern::Mortar => [0xF2, 0xF0, 0xEC],
            Pattern::Fluid => [0xE7, 0xF4, 0xEE],
            Pattern::Solid | Pattern::Blank => [0xFF, 0xFF, 0xFF],
        }
    }

    /// Colour of the strokes.
    #[must_use]
    pub const fn ink(self) -> Colour {
        match self {
            Pattern::Water => [0x2F, 0x7F, 0xB5],
            Pattern::Iron => [0x0B, 0x30, 0x54],
            Pattern::Fluid => [0x2E, 0x86, 0x6C],
            _ => [0x80, 0x70, 0x60],
        }
    }

    /// What is repeated; nothing for a plain area.
    #[must_use]
    pub fn tile(self) -> Option<Tile> {
        type Strokes = &'static [[f64; 4]];
        type Dots = &'static [[f64; 2]];
        let (width, height, strokes, dots): (f64, f64, Strokes, Dots) = match self {
            Pattern::SoftClay => (8.0, 4.0, &[[0.5, 1.0, 3.5, 1.0], [4.5, 3.0, 7.5, 3.0]], &[]),
            Pattern::StiffClay => {
                (6.0, 3.2, &[[0.0, 0.8, 6.0, 0.8], [0.0, 2.4, 2.6, 2.4], [3.4, 2.4, 6.0, 2.4]], &[])
            }
            Pattern::Silt => (4.0, 4.0, &[[1.0, 0.4, 1.0, 1.8], [3.0, 2.4, 3.0, 3.8]], &[]),
            Pattern::Sand => (4.0, 4.0, &[], &[[0.6, 0.8], [2.6, 1.6], [1.4, 2.8], [3.5, 3.4]]),
            Pattern::Gravel => (
                6.0,
                6.0,
                &[
                    [0.4, 1.6, 1.6, 2.8],
                    [1.6, 2.8, 2.8, 1.6],
                    [1.6, 0.4, 2.8, 1.6],
                    [0.4, 1.6, 1.6, 0.4],
                    [3.6, 4.4, 4.4, 5.2],
                    [4.4, 5.2, 5.2, 4.4],
                    [4.4, 3.6, 5.2, 4.4],
                    [3.6, 4.4, 4.4, 3.6],
                ],
                &[[4.6, 1.2], [1.4, 4.6]],
            ),
            Pattern::Peat => (
                6.0,
                6.0,
                &[
                    [0.4, 0.6, 2.4, 0.6],
                    [1.4, 0.6, 1.4, 2.0],
                    [1.4, 0.6, 2.4, 1.6],
                    [0.4, 1.6, 1.4, 0.6],
                    [3.4, 3.6, 5.4, 3.6],
                    [4.4, 3.6, 4.4, 5.0],
                    [4.4, 3.6, 5.4, 4.6],
                    [3.4, 4.6, 4.4, 3.6],
                ],
                &[],
            ),
            Pattern::Fill => (
                6.0,
                6.0,
                &[
                    [0.6, 0.6, 2.2, 2.2],
                    [0.6, 2.2, 2.2, 0.6],
                    [3.8, 3.8, 5.0, 5.0],
                    [3.8, 5.0, 5.0, 3.8],
                ],
                &[[4.6, 1.4], [1.4, 4.6]],
            ),
            Pattern::Rock => (
                8.0,
                5.0,
                &[
                    [0.0, 0.5, 8.0, 0.5],
                    [0.0, 3.0, 8.0, 3.0],
                    [2.0, 0.5, 2.0, 3.0],
                    [6.0, 3.0, 6.0, 5.0],
                    [6.0, 0.0, 6.0, 0.5],
                ],
                &[],
            ),
            Pattern::Water => (
                10.0,
                6.0,
                &[
                    [0.5, 1.2, 4.5, 1.2],
                    [1.3, 2.0, 3.7, 2.0],
                    [5.5, 4.2, 9.5, 4.2],
                    [6.3, 5.0, 8.7, 5.0],
                ],
                &[],
            ),
            Pattern::Iron => (1.4, 1.4, &[[0.0, 0.0, 1.4, 1.4]], &[]),
            Pattern::Mortar => {
                (3.0, 3.0, &[[1.8, 1.6, 2.6, 2.4]], &[[0.6, 0.6], [0.9, 2.2], [2.2, 0.7]])
            }
            Pattern::Fluid => {
                (4.0, 4.0, &[[0.4, 1.0, 1.4, 1.0], [2.4, 3.0, 3.4, 3.0]], &[[2.9, 1.0], [0.9, 3.0]])
            }
            Pattern::Solid | Pattern::Blank => return None,
        };
        Some(Tile {
            width,
            height,
            strokes: strokes
                .iter()
                .map(|&[a, b, c, d]| (Point::new(a, b), Point::new(c, d)))
                .collect(),
            dots: dots.iter().map(|&[x, y]| Point::new(x, y)).collect(),
        })
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// Relative luminance (IEC 61966-2-1).
    fn luminance(colour: Colour) -> f64 {
        let linear = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.040_45 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        let [r, g, b] = colour.map(linear);
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    /// Contrast of two colours (WCAG 2.2, "contrast ratio").
    fn contrast(a: Colour, b: Colour) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn lines_and_words_stand_out_in_grey_on_every_ground() {
        for layer in Layer::ALL {
            // Thin reference lines stay behind the rest: 3 is asked of graphics, 4.5 of words.
            let asked = if layer == Layer::Grid { 3.0 } else { 4.5 };
            for pattern in Pattern::ALL {
                let found = contrast(layer.look().colour, pattern.ground());
                assert!(found >= asked, "{layer:?} on {pattern:?}: {found:.2}");
            }
        }
        for pattern in Pattern::ALL.into_iter().filter(|p| p.tile().is_some()) {
            let found = contrast(pattern.ink(), pattern.ground());
            assert!(found >= 3.0, "strokes of {pattern:?}: {found:.2}");
        }
    }

    #[test]
    fn layers_of_a_view_differ_without_colour() {
        // Those that are neither paper furniture nor carry a pattern or words of their own.
        let drawn = [
            Layer::Ground,
            Layer::Water,
            Layer::Clearance,
            Layer::Bore,
            Layer::Axis,
            Layer::Pipe,
            Layer::Host,
        ];
        let looks: BTreeSet<String> =
            drawn.iter().map(|l| format!("{} {:?}", l.look().width, l.look().dashes)).collect();
        assert_eq!(looks.len(), drawn.len());
    }

    #[test]
    fn patterns_differ_in_shape_and_can_be_written_as_line_families() {
        let mut seen = BTreeSet::new();
        for pattern in Pattern::ALL {
            let Some(tile) = pattern.tile() else { continue };
            assert!(seen.insert(format!("{tile:?}")), "{pattern:?} looks like another");
            for (a, b) in &tile.strokes {
                let (dx, dy) = (b.x - a.x, b.y - a.y);
                let diagonal = (dx.abs() * tile.height - dy.abs() * tile.width).abs() < 1e-9;
                assert!(dx == 0.0 || dy == 0.0 || diagonal, "{pattern:?}: {a:?} {b:?}");
                for p in [a, b] {
                    assert!(
                        (0.0..=tile.width).contains(&p.x) && (0.0..=tile.height).contains(&p.y)
                    );
                }
            }
        }
        assert_eq!(seen.len(), 12);
    }

    #[test]
    fn names_and_widths_are_usable_everywhere() {
        let names: BTreeSet<_> = Layer::ALL.iter().map(|l| l.name()).collect();
        assert_eq!(names.len(), Layer::ALL.len());
        let known = [0.13, 0.15, 0.18, 0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6];
        assert!(Layer::ALL.iter().all(|l| known.contains(&l.look().width)));
    }
}
