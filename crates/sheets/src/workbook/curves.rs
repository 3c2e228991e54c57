//! Every curve along the line as numbers, side by side.

use assess::Profile;
use quantity::{Kind, Unit, unit};
use rust_xlsxwriter::{Worksheet, XlsxError};

use super::page::Page;
use super::style::{Styles, digits};
use crate::Subject;

/// Name of the sheet.
pub const NAME: &str = "Curves";
/// Row of the first point.
pub const FIRST: u32 = 5;
/// Lengths that stay below this everywhere are shown in millimetres, m.
const SMALL: f64 = 0.5;

/// Every curve with its columns.
pub struct Curves<'a> {
    /// The curves; those on the same places share the column of places.
    pub list: Vec<Curve<'a>>,
    columns: u16,
}

/// One curve with its columns.
pub struct Curve<'a> {
    /// The curve.
    pub profile: &'a Profile,
    /// Unit in which it is shown.
    pub unit: Unit,
    /// Column of its places.
    pub places: u16,
    /// Column of its values.
    pub column: u16,
}

impl Curve<'_> {
    /// Row of its last point.
    pub fn last(&self) -> u32 {
        FIRST + u32::try_from(self.profile.md.len().saturating_sub(1)).unwrap_or(0)
    }
}

impl<'a> Curves<'a> {
    /// The curves of a subject that have a point.
    pub fn of(subject: &'a Subject) -> Self {
        let mut groups: Vec<Vec<&'a Profile>> = Vec::new();
        for profile in subject.assessment.profiles.iter().filter(|p| !p.md.is_empty()) {
            let same = |g: &&mut Vec<&'a Profile>| g.first().is_some_and(|p| p.md == profile.md);
            match groups.iter_mut().find(same) {
                Some(group) => group.push(profile),
                None => groups.push(vec![profile]),
            }
        }
        let (mut list, mut columns) = (Vec::new(), 0u16);
        for group in groups {
            let places = columns;
            for profile in group {
                columns += 1;
                let unit = shown_in(profile, subject);
                list.push(Curve { profile, unit, places, column: columns });
            }
            columns += 1;
        }
        Self { list, columns }
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The curve with this id.
    pub fn find(&self, id: &str) -> Option<&Curve<'a>> {
        self.list.iter().find(|c| c.profile.id == id)
    }

    /// The sheet.
    pub fn sheet(&self, subject: &Subject, styles: &Styles) -> Result<Worksheet, XlsxError> {
        let widths = vec![14.0; usize::from(self.columns)];
        let mut page = Page::new(subject, NAME, &widths)?;
        page.run_on(0, 0, "Curves along the line", &styles.title)?;
        page.run_on(1, 0,
            "Numbers, not live, in usual units. Columns of places stand before the curves that share them.",
            &styles.words,
        )?;
        let metre = unit::M.in_system(subject.system);
        let place = if subject.assessment.technique == "bursting" { "chainage" } else { "md" };
        for curve in &self.list {
            let profile = curve.profile;
            if curve.column == curve.places + 1 {
                for (row, words) in [(2, ""), (3, place), (4, metre.symbol())] {
                    page.words(row, curve.places, words, &styles.head_of_numbers)?;
                }
                column(&mut page, curve.places, &profile.md, metre, styles)?;
            }
            for (row, words) in
                [(2, profile.id.as_str()), (3, &profile.title), (4, curve.unit.symbol())]
            {
                page.words(row, curve.column, words, &styles.head_of_numbers)?;
            }
            column(&mut page, curve.column, &profile.values, curve.unit, styles)?;
        }
        page.sheet.set_freeze_panes(FIRST, 0)?;
        page.sheet.set_repeat_rows(2, FIRST - 1)?;
        // Side by side on paper: six columns would be lost in one page of fifty.
        page.sheet.set_print_fit_to_pages(0, 0).set_print_scale(60);
        page.finish()
    }
}

fn column(
    page: &mut Page,
    column: u16,
    values: &[f64],
    unit: Unit,
    styles: &Styles,
) -> Result<(), XlsxError> {
    let largest = values.iter().filter(|v| v.is_finite()).fold(0.0f64, |a, v| a.max(v.abs()));
    // One number of digits for a column, four in its largest value and one more for the others.
    let format =
        digits(&styles.number, unit.from_si(largest) * (1.0 + 1e-4) + f64::MIN_POSITIVE, 5);
    for (row, value) in (FIRST..).zip(values) {
        page.number(row, column, unit.from_si(*value), &format)?;
    }
    Ok(())
}

/// The usual unit of a curve's values for its reader.
fn shown_in(profile: &Profile, subject: &Subject) -> Unit {
    let Some(si) = Unit::find_any(profile.unit) else { return unit::ONE };
    let largest = profile.values.iter().fold(0.0f64, |a, v| a.max(v.abs()));
    let usual = match si.kind() {
        Kind::Length if largest < SMALL => unit::MM,
        kind => kind.usual(),
    };
    usual.in_system(subject.system)
}
