//! How cells look, and with how many digits a number stands in them.

use quantity::{System, Unit, significant};
use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder, FormatUnderline};

/// Formats of cells.
pub struct Styles {
    /// Title of a sheet.
    pub title: Format,
    /// Words under a title, and explanations.
    pub words: Format,
    /// Bold words.
    pub strong: Format,
    /// Head of a table.
    pub head: Format,
    /// Head of a column of numbers.
    pub head_of_numbers: Format,
    /// Head of a column just behind numbers.
    pub head_behind: Format,
    /// Words in a table, just behind a number.
    pub unit: Format,
    /// Words in a table.
    pub cell: Format,
    /// A formula as text.
    pub formula: Format,
    /// A number.
    pub number: Format,
    /// A value put in, which a reviewer may change.
    pub input: Format,
    /// A number that does not follow when inputs change.
    pub fixed: Format,
    /// Words on what does not follow.
    pub fixed_words: Format,
    /// The head of a working.
    pub block: Format,
    /// A link.
    pub link: Format,
    /// A status.
    pub status: Format,
}

impl Styles {
    /// The formats.
    pub fn new() -> Self {
        let base = Format::new().set_font_name("Calibri").set_font_size(10);
        let top = base.clone().set_align(FormatAlign::Top);
        let cell = top
            .clone()
            .set_text_wrap()
            .set_border_bottom(FormatBorder::Hair)
            .set_border_bottom_color(Color::RGB(0x00A6_A6A6));
        let behind = cell.clone().set_align(FormatAlign::Left).set_indent(1);
        let number = cell.clone().set_align(FormatAlign::Right);
        let head = top
            .clone()
            .set_bold()
            .set_text_wrap()
            .set_background_color(Color::RGB(0x00E4_E7EA))
            .set_border_bottom(FormatBorder::Thin);
        let grey = Color::RGB(0x0059_5959);
        Self {
            title: base.clone().set_font_size(15).set_bold(),
            words: top.clone().set_text_wrap(),
            strong: top.clone().set_text_wrap().set_bold(),
            head_behind: head.clone().set_align(FormatAlign::Left).set_indent(1),
            head_of_numbers: head.clone().set_align(FormatAlign::Right),
            head,
            unit: behind.clone(),
            formula: cell.clone().set_font_name("Consolas").set_font_size(9),
            input: number.clone().set_background_color(Color::RGB(0x00FF_F6D6)),
            fixed: number.clone().set_italic().set_font_color(grey),
            fixed_words: cell.clone().set_italic().set_font_color(grey),
            block: top
                .clone()
                .set_bold()
                .set_font_size(11)
                .set_text_wrap()
                .set_border_top(FormatBorder::Thin)
                .set_background_color(Color::RGB(0x00F2_F4F6)),
            link: cell
                .clone()
                .set_font_color(Color::RGB(0x0000_4A8F))
                .set_underline(FormatUnderline::Single),
            status: behind.set_bold(),
            cell,
            number,
        }
    }
}

/// A format with the digits that a value needs: as many as the printed value has.
pub fn digits(format: &Format, value: f64, digits: usize) -> Format {
    format.clone().set_num_format(pattern(value, digits))
}

fn pattern(value: f64, digits: usize) -> String {
    let text = significant(value, digits);
    if let Some((mantissa, _)) = text.split_once('e') {
        let decimals = mantissa.trim_end_matches('0').split_once('.').map_or(0, |(_, d)| d.len());
        let point = if decimals == 0 { "" } else { "." };
        return format!("0{point}{}E+00", "0".repeat(decimals));
    }
    match text.split_once('.') {
        Some((_, decimals)) => format!("0.{}", "0".repeat(decimals.len())),
        None => "0".to_owned(),
    }
}

/// The formula that turns the SI value of a cell into the unit of its reader.
pub fn as_read(cell: &str, unit: Unit, system: System) -> String {
    let unit = unit.in_system(system);
    if is_gradient(unit) {
        return format!("100*TAN({cell})");
    }
    let factor = unit.to_si(1.0);
    if factor == 1.0 { cell.to_owned() } else { format!("{cell}/{factor}") }
}

fn is_gradient(unit: Unit) -> bool {
    unit.kind() == quantity::Kind::Angle && unit.symbol() == "%"
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::unit;

    #[test]
    fn a_number_has_the_digits_of_its_printed_value() {
        assert_eq!(pattern(162.437, 4), "0.0");
        assert_eq!(pattern(12_345.6, 4), "0");
        assert_eq!(pattern(0.012_345, 4), "0.00000");
        assert_eq!(pattern(1.7e11, 4), "0.0E+00");
        assert_eq!(pattern(2e8, 6), "0E+00");
        assert_eq!(pattern(0.0, 4), "0");
    }

    #[test]
    fn readers_get_their_units_by_formula() {
        assert_eq!(as_read("C4", unit::MM, System::Metric), "C4/0.001");
        assert_eq!(as_read("C4", unit::M, System::Metric), "C4");
        assert_eq!(as_read("C4", unit::M, System::Customary), "C4/0.3048");
        assert_eq!(as_read("C4", unit::PERCENT_GRADE, System::Metric), "100*TAN(C4)");
    }
}
