//! A sheet of a drawing as a picture for the page.

use sheets::scene::Sheet;

/// The sheet as SVG; its typeface comes from this crate.
pub(crate) fn of(sheet: &Sheet) -> Vec<u8> {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {w} {h}\" width=\"{w}mm\" height=\"{h}mm\"><rect width=\"{w}\" height=\"{h}\" fill=\"none\" stroke=\"#000\"/></svg>",
        w = sheet.width, h = sheet.height
    ).into_bytes()
}
