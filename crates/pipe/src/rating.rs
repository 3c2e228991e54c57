use quantity::{Length, Pressure, show, unit};
use working::{Evidence, Source};

use crate::error::{finite, positive, within};
use crate::{Pipe, PipeError, Standard};

/// Tensile strength of ductile iron in EN 545, Pa.
///
/// Read on foundry data pages; implied as well by the standard's table of minimum walls, which it
/// reproduces.
pub const TENSILE_STRENGTH: Pressure = Pressure::from_si(420.0e6);

/// Safety against bursting in the pressure formula of EN 545.
///
/// Confirmed by recomputing the table of minimum walls (`cases/pipe/en545-class-walls.toml`).
pub const PRESSURE_SAFETY: f64 = 3.0;

/// Highest allowable operating pressure that EN 545 prints for K classes, Pa. From memory; EN
/// 545:2002.
const K_CLASS_CAP: f64 = 85.0e5;

/// Share of surge in the allowable maximum operating pressure: PMA = 1.2 PFA. Read on a page
/// quoting EN 545 / EN 805.
const SURGE_FACTOR: f64 = 1.2;

/// What the site test may add to PMA, Pa: PEA = 1.2 PFA + 5 bar. Read on a page quoting EN 545 / EN
/// 805.
const TEST_SURPLUS: f64 = 5.0e5;

/// Surge allowance of AWWA C150, Pa: 100 psi. Read.
const AWWA_SURGE: f64 = 100.0 * 6_894.757_293_168;

/// Allowable pressures of a component.
#[derive(Debug, Clone, PartialEq)]
pub struct Rating {
    /// Allowable operating pressure, without surge.
    pub pfa: Pressure,
    /// Allowable maximum operating pressure, with surge.
    pub pma: Pressure,
    /// Allowable test pressure on site.
    pub pea: Pressure,
    /// Where operating and maximum pressure come from.
    pub source: Source,
    /// Where the test pressure comes from.
    pub pea_source: Source,
}

impl Rating {
    /// The rating that EN 545 gives to a component of allowable operating pressure `pfa`.
    #[must_use]
    pub fn en545(pfa: Pressure, source: Source) -> Self {
        let pma = SURGE_FACTOR * pfa;
        let pea_source = source.clone();
        Self { pfa, pma, pea: pma + Pressure::from_si(TEST_SURPLUS), source, pea_source }
    }
}

/// Least wall of a pipe for an allowable operating pressure (EN 545).
///
/// ```text
/// e_min = p·SF·DE / ( 2 R_m + p·SF )
/// ```
/// | symbol | meaning                        | unit | argument           |
/// |--------|--------------------------------|------|--------------------|
/// | e_min  | least wall                     | m    | returned           |
/// | p      | allowable operating pressure   | Pa   | `pfa`              |
/// | DE     | outside diameter               | m    | `outside_diameter` |
/// | R_m    | tensile strength               | Pa   | [`TENSILE_STRENGTH`] |
/// | SF     | safety against bursting, 3     | –    | [`PRESSURE_SAFETY`] |
///
/// With millimetres, bar and MPa the factor 2 becomes 20. Casting needs at least 3.0 mm; the
/// formula knows no floor.
///
/// # Source
/// EN 545:2010, inverse of [`rating_from_wall`]. The form was proved by recomputing 50 of the 67
/// walls of the standard's table within 0.06 mm; the others are casting floors or smoothing steps.
/// # Errors
/// [`PipeError::OutOfRange`] for values that are not positive.
/// # Checked by
/// published table: `cases/pipe/en545-class-walls.toml`; property: round trip with
/// [`rating_from_wall`].
pub fn wall_for_pressure(outside_diameter: Length, pfa: Pressure) -> Result<Length, PipeError> {
    let de = positive("outside diameter", outside_diameter.si(), unit::MM)?;
    let p = positive("allowable operating pressure", pfa.si(), unit::BAR)? * PRESSURE_SAFETY;
    let wall = p * de / (2.0 * TENSILE_STRENGTH.si() + p);
    finite("minimum wall", wall, unit::MM).map(Length::from_si)
}

/// Allowable pressures of a pipe from its least wall (EN 545).
///
/// ```text
/// PFA = 2 e_min R_m / ( (DE − e_min) SF ),   PMA = 1.2 PFA,   PEA = 1.2 PFA + 5 bar
/// ```
/// Symbols as in [`wall_for_pressure`]. The mean diameter DE − e_min carries the hoop force.
/// Neither rounded nor capped: [`Pipe::rating`] does that for the K classes.
///
/// These are ratings of the *pipe* with an unrestrained joint; a restrained joint has its own,
/// usually lower, one.
///
/// # Source
/// EN 545:2010; PMA and PEA read on a page quoting EN 545 / EN 805.
/// # Errors
/// [`PipeError::OutOfRange`] for values that are not positive and for a wall of half the diameter
/// or more.
/// # Checked by
/// `cases/pipe/en545-pressure.toml`; property: a thicker wall never lowers the rating.
pub fn rating_from_wall(outside_diameter: Length, wall_min: Length) -> Result<Rating, PipeError> {
    let de = positive("outside diameter", outside_diameter.si(), unit::MM)?;
    let e = positive("minimum wall", wall_min.si(), unit::MM)?;
    within("minimum wall", e, unit::MM, e < de / 2.0, || {
        format!("less than half the outside diameter ({})", show(de / 2.0, unit::MM))
    })?;
    let pfa = 2.0 * e * TENSILE_STRENGTH.si() / ((de - e) * PRESSURE_SAFETY);
    let text = "EN 545:2010, PFA = 20 e_min Rm / (D SF), Rm 420 MPa, SF 3";
    Ok(Rating::en545(Pressure::from_si(pfa), Source::new(text, Evidence::Computed)))
}

impl Pipe {
    /// Allowable pressures of the pipe (not of its joint).
    ///
    /// A pressure class of EN 545 stands for its number in bar. A K class gets the formula, cut
    /// down to whole bar and to at most 85 bar as EN 545 printed them. AWWA C151: the class is the
    /// working pressure, 100 psi of surge are allowed on top; C150 names no site test pressure, so
    /// that the same sum stands for it (judgement).
    ///
    /// # Errors
    /// As [`rating_from_wall`]; a valid pipe has none.
    pub fn rating(&self) -> Result<Rating, PipeError> {
        if let Some(class) = &self.data().class_pressure {
            if self.standard() == Standard::AwwaC151 {
                let surge = Pressure::from_si(AWWA_SURGE);
                let text = "AWWA C151 pressure class, surge of 100 psi of C150 on top";
                return Ok(Rating {
                    pfa: class.value,
                    pma: class.value + surge,
                    pea: class.value + surge,
                    source: Source::new(text, Evidence::Published),
                    pea_source: Source::new(
                        "same as the maximum pressure: AWWA C150 names no site test pressure",
                        Evidence::Judgement,
                    ),
                });
            }
            return Ok(Rating::en545(class.value, class.source.clone()));
        }
        let exact = rating_from_wall(self.outside_diameter(), self.wall_min())?;
        if self.standard() != Standard::En545 {
            return Ok(exact);
        }
        let whole = (exact.pfa.si() / 1e5 + 1e-9).floor() * 1e5;
        let text = "pressure formula of EN 545 on the minimum wall, whole bar, at most 85 bar";
        Ok(Rating::en545(
            Pressure::from_si(whole.min(K_CLASS_CAP)),
            Source::new(text, Evidence::Computed),
        ))
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn class_40_wall_of_dn_300_carries_40_bar() {
        let r = rating_from_wall(Length::millimetres(326.0), Length::millimetres(4.6));
        let r = r.expect("valid");
        assert_relative_eq!(r.pfa.to_bar(), 40.0747, max_relative = 1e-5);
        assert_relative_eq!(r.pma.to_bar(), 1.2 * r.pfa.to_bar(), max_relative = 1e-12);
        assert_relative_eq!(r.pea.to_bar(), r.pma.to_bar() + 5.0, max_relative = 1e-12);
    }

    #[test]
    fn walls_and_pressures_out_of_range_are_refused_by_name() {
        let d = Length::millimetres(326.0);
        for (wall, allowed) in [(0.0, "greater than 0"), (200.0, "less than half")] {
            let e = rating_from_wall(d, Length::millimetres(wall)).expect_err("accepted");
            assert!(e.to_string().starts_with("minimum wall must be"), "{e}");
            assert!(e.to_string().contains(allowed), "{e}");
        }
        assert!(wall_for_pressure(d, Pressure::from_si(f64::NAN)).is_err());
        assert!(wall_for_pressure(Length::from_si(f64::INFINITY), Pressure::bar(40.0)).is_err());
    }

    proptest! {
        #[test]
        fn wall_and_pressure_are_each_others_inverse(de in 80.0f64..2100.0, bar in 1.0f64..200.0) {
            let d = Length::millimetres(de);
            let wall = wall_for_pressure(d, Pressure::bar(bar)).unwrap();
            let back = rating_from_wall(d, wall).unwrap().pfa.to_bar();
            prop_assert!((back - bar).abs() < 1e-9 * bar, "{bar} bar became {back}");
        }

        #[test]
        fn a_thicker_wall_has_a_higher_rating(de in 80.0f64..2100.0, share in 0.01f64..0.4) {
            let at = |s: f64| {
                rating_from_wall(Length::millimetres(de), Length::millimetres(de * s)).unwrap().pfa
            };
            prop_assert!(at(share * 1.01) > at(share));
        }
    }
}
