//! A sheet of a drawing as a picture for the page.

use sheets::scene::Sheet;
use sheets::scene::svg::{SvgOptions, svg_with};

/// The sheet as SVG without its typeface, which this crate has anyway.
pub(crate) fn of(sheet: &Sheet) -> Vec<u8> {
    svg_with(sheet, SvgOptions { embed_font: false, ..SvgOptions::default() }).into_bytes()
}
