//! How a line is cut into sheets.

use super::reader::Reader;
use crate::scene::scale::standard_scale;

/// Scale across up to which one sheet shows the whole line.
// Judgement: beyond 1:1000 a bore of 0.5 m is half a millimetre wide.
const LARGEST: f64 = 1000.0;
/// Most sheets of one drawing; a longer line takes a smaller scale.
const MOST: f64 = 40.0;
/// Air beside the ends or the match lines of a sheet, mm.
pub(super) const BESIDE: f64 = 12.0;

/// What one sheet shows of the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Page {
    /// Chainages, m.
    pub(super) from: f64,
    pub(super) to: f64,
    /// Denominator of the scale across.
    pub(super) scale: f64,
    /// Whether it shows the whole line in small and others follow.
    pub(super) overview: bool,
    /// Number of the sheet, from 1, and how many there are.
    pub(super) number: (usize, usize),
}

/// The sheets of a line of some run; views are `width` mm wide.
pub(super) fn pages(run: f64, width: f64, reader: Reader) -> Vec<Page> {
    let usable = width - 2.0 * BESIDE;
    let needed = run * 1000.0 / usable;
    let whole =
        Page { from: 0.0, to: run, scale: standard_scale(needed), overview: false, number: (1, 1) };
    if needed <= LARGEST {
        return vec![whole];
    }
    let scale = standard_scale(needed / MOST).max(LARGEST);
    let unit = reader.unit().to_si(50.0);
    let length = (usable * scale / 1000.0 / unit).floor().max(1.0) * unit;
    let mut list = vec![Page { overview: true, ..whole }];
    let mut from = 0.0;
    while from < run - 1e-6 {
        let to = if from + length > run - 1e-6 { run } else { from + length };
        list.push(Page { from, to, scale, overview: false, number: (1, 1) });
        from = to;
    }
    let count = list.len();
    list.iter_mut().enumerate().for_each(|(i, page)| page.number = (i + 1, count));
    list
}

impl Page {
    /// Whether the line goes on before this sheet, and after it, with the number of the sheet there.
    pub(super) fn neighbours(&self, run: f64) -> [Option<(f64, usize)>; 2] {
        let before = (self.from > 1e-6).then(|| (self.from, self.number.0 - 1));
        let after = (self.to < run - 1e-6).then(|| (self.to, self.number.0 + 1));
        [before, after]
    }
}

#[cfg(test)]
mod tests {
    use quantity::System;

    use super::*;

    #[test]
    fn sheets_cover_the_line_without_gap() {
        let reader = Reader { system: System::Metric };
        assert_eq!(pages(290.0, 344.0, reader).len(), 1);
        assert_eq!(pages(12.0, 344.0, reader)[0].scale, 50.0);
        for (run, count) in [(3000.0, 11), (330.0, 3), (90_000.0, 30)] {
            let list = pages(run, 344.0, reader);
            assert_eq!(list.len(), count, "{run}");
            assert!(list[0].overview && list[0].to == run);
            assert_eq!(list[1].from, 0.0);
            assert_eq!(list.last().unwrap().to, run);
            assert!(list[1..].windows(2).all(|w| w[0].to == w[1].from));
        }
    }
}
