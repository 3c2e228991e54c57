use quantity::{Length, show, unit};

use crate::GroundError;

/// Cover under a road by the diameter of the pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoadCover {
    /// Cover under road and shoulder.
    pub cover: Length,
    /// The row of the table, in words.
    pub row: &'static str,
}

/// Cover that a pipe needs under a road and its shoulder, by its diameter.
///
/// | diameter      | cover          |
/// |---------------|----------------|
/// | below 4 in    | 4 ft (1.2 m)   |
/// | 4 in to 12 in | 8 ft (2.4 m)   |
/// | 13 in to 24 in | 12 ft (3.7 m) |
/// | above 24 in   | 16 ft (4.9 m)  |
///
/// The table is printed in whole inches; between 12 in and 13 in the deeper row is taken. Owners'
/// rules differ and go first.
///
/// # Source
/// Najafi, Trenchless Technology Piping, table 8.1, p. 345. Deviation: none.
/// # Errors
/// [`GroundError::OutOfRange`] unless the diameter is greater than zero.
/// # Checked by
/// `cases/geometry/road-cover-najafi-table-8-1.toml`.
pub fn required_cover_under_road(diameter: Length) -> Result<RoadCover, GroundError> {
    let inches = diameter.to_inches();
    if !(inches > 0.0 && inches.is_finite()) {
        return Err(GroundError::OutOfRange {
            quantity: "pipe diameter",
            found: show(diameter.si(), unit::MM),
            allowed: "greater than 0",
        });
    }
    // A diameter typed in millimetres may miss its inch by rounding.
    let inches = (inches * 1e6).round() / 1e6;
    let (feet, row) = if inches < 4.0 {
        (4.0, "below 4 in")
    } else if inches <= 12.0 {
        (8.0, "4 in to 12 in")
    } else if inches <= 24.0 {
        (12.0, "13 in to 24 in")
    } else {
        (16.0, "above 24 in")
    };
    Ok(RoadCover { cover: Length::feet(feet), row })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_begin_and_end_where_the_table_says() {
        let feet = |d: Length| required_cover_under_road(d).unwrap().cover.to_feet();
        let rows = [(3.9, 4.0), (4.0, 8.0), (12.0, 8.0), (12.5, 12.0), (24.0, 12.0), (24.1, 16.0)];
        for (inches, cover) in rows {
            approx::assert_relative_eq!(feet(Length::inches(inches)), cover, max_relative = 1e-12);
        }
        approx::assert_relative_eq!(feet(Length::millimetres(304.8)), 8.0, max_relative = 1e-12);
        assert!(required_cover_under_road(Length::ZERO).is_err());
        assert!(required_cover_under_road(Length::from_si(f64::NAN)).is_err());
    }
}
