use quantity::{Pressure, Viscosity, unit};

use crate::{FluidError, Rheology};

/// Stress at the bob of the standard six-speed instrument per degree of the dial, Pa.
///
/// Guo & Liu, Applied Drilling Circulation Systems, eq. 2.14, and API RP 13D (5.11 dyn/cm²).
const STRESS_PER_DEGREE: f64 = 0.511;

/// Shear rate at the bob at 300 turns a minute, 1/s; API RP 13D.
const RATE_AT_300: f64 = 511.0;

/// Shear rate at the bob at 100 turns a minute, 1/s: 1.703 per turn a minute.
///
/// The API equations of May 2002 print 170.2, which changes the consistency by 0.01 %.
const RATE_AT_100: f64 = 170.3;

/// Readings of a six-speed rotational viscometer with the standard bob, degrees of the dial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DialReadings {
    /// At 600 turns a minute.
    pub r600: f64,
    /// At 300 turns a minute.
    pub r300: f64,
    /// At 100 turns a minute.
    pub r100: Option<f64>,
    /// At 6 turns a minute.
    pub r6: Option<f64>,
    /// At 3 turns a minute.
    pub r3: Option<f64>,
}

/// Which law is laid through which readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Model {
    /// Bingham, from 600 and 300.
    Bingham,
    /// Power law from 600 and 300: the shear rates inside rods.
    PowerLawPipe,
    /// Power law from 100 and 3: the shear rates of an annulus.
    PowerLawAnnulus,
    /// Herschel–Bulkley from 600, 300, 6 and 3.
    HerschelBulkley,
}

impl Model {
    /// All models.
    pub const ALL: [Self; 4] =
        [Self::Bingham, Self::PowerLawPipe, Self::PowerLawAnnulus, Self::HerschelBulkley];

    /// The word by which a file or a table names it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bingham => "bingham",
            Self::PowerLawPipe => "power-law-pipe",
            Self::PowerLawAnnulus => "power-law",
            Self::HerschelBulkley => "herschel-bulkley",
        }
    }
}

/// A fluid that was fitted to readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// The model that was asked for.
    pub model: Model,
    /// Its parameters.
    pub rheology: Rheology,
    /// Where the fit is not quite that model, why.
    pub remark: Option<&'static str>,
}

/// Remark on a Herschel–Bulkley fit without yield stress.
const NO_YIELD: &str = "twice the reading at 3 less the reading at 6 is not above 0: no yield \
                        stress, so that a power law from 600 and 300 remains";

/// Parameters of a fluid from readings of the dial.
///
/// ```text
/// Bingham           μ_p = R600 − R300 [mPa·s],  τ₀ = R300 − μ_p [lbf/100 ft²]
/// power law, rods   n = log₂(R600/R300),        K = 0.511 R300 / 511ⁿ
/// power law         n = log(R100/R3)/log(100/3), K = 0.511 R100 / 170.3ⁿ
/// Herschel–Bulkley  θ = 2 R3 − R6,  τ_y = 0.511 θ,
///                   n = log₂((R600 − θ)/(R300 − θ)),  K = 0.511 (R300 − θ) / 511ⁿ
/// ```
/// | symbol | meaning                            | unit  |
/// |--------|------------------------------------|-------|
/// | R…     | reading at that many turns a minute | deg  |
/// | θ      | reading that yield alone would give | deg  |
/// | τ_y, τ₀ | yield stress                      | Pa    |
/// | K, n   | consistency and flow index         | Pa·sⁿ, – |
///
/// Sources print the logarithms as 3.32 or 3.322 log₁₀ and 0.657 log₁₀; the exact factors are used.
/// Where θ is not above 0 the Herschel–Bulkley fit falls back to the power law from 600 and 300
/// and says so in [`Fit::remark`]. θ overstates the yield stress of fluids rich in viscous polymer.
/// A Marsh funnel gives none of this.
///
/// # Source
/// API RP 13D hydraulics equations of May 2002 (power laws); Guo & Liu, Applied Drilling
/// Circulation Systems, eq. 2.12 to 2.14 (Herschel–Bulkley; they write 500 where 511 is exact).
/// # Errors
/// [`FluidError::Unreadable`] when a reading that the model needs is missing, not above 0, or does
/// not rise with the speed; [`FluidError::OutOfRange`] when a parameter is outside [`Rheology`].
/// # Checked by
/// `cases/fluid/fluid-model.toml` (computed); properties: the fit gives back its readings.
pub fn fit(model: Model, readings: &DialReadings) -> Result<Fit, FluidError> {
    let of = |rheology| Fit { model, rheology, remark: None };
    match model {
        Model::Bingham => bingham(readings).map(of),
        Model::PowerLawPipe => from_high_speeds(model, readings, 0.0).map(of),
        Model::PowerLawAnnulus => power_law_annulus(readings).map(of),
        Model::HerschelBulkley => {
            let threshold = threshold(readings)?;
            let remark = (threshold <= 0.0).then_some(NO_YIELD);
            let rheology = from_high_speeds(model, readings, threshold.max(0.0))?;
            Ok(Fit { model, rheology, remark })
        }
    }
}

fn bingham(readings: &DialReadings) -> Result<Rheology, FluidError> {
    let (r600, r300) = high_speeds(Model::Bingham, readings, 0.0)?;
    let viscosity = r600 - r300;
    let yield_point = r300 - viscosity;
    if yield_point < 0.0 {
        let why = "the reading at 600 is more than twice that at 300, the yield point negative";
        return Err(unreadable(Model::Bingham, why.to_owned()));
    }
    Rheology::bingham(
        Viscosity::from_unit(viscosity, unit::MPA_S),
        Pressure::from_unit(yield_point, unit::LBF_PER_100FT2),
    )
}

fn power_law_annulus(readings: &DialReadings) -> Result<Rheology, FluidError> {
    let model = Model::PowerLawAnnulus;
    let r100 = reading(model, "100", readings.r100)?;
    let r3 = reading(model, "3", readings.r3)?;
    rising(model, ("3", r3), ("100", r100))?;
    let index = (r100 / r3).ln() / (100.0f64 / 3.0).ln();
    let consistency = STRESS_PER_DEGREE * r100 / RATE_AT_100.powf(index);
    Rheology::new(Pressure::ZERO, consistency, index)
}

/// Reading that the yield stress alone would give, 2 R3 − R6.
fn threshold(readings: &DialReadings) -> Result<f64, FluidError> {
    let model = Model::HerschelBulkley;
    let r6 = reading(model, "6", readings.r6)?;
    let r3 = reading(model, "3", readings.r3)?;
    if r3 > r6 {
        let why = format!("the reading at 3 is {r3}, more than that at 6, which is {r6}");
        return Err(unreadable(model, why));
    }
    Ok(2.0 * r3 - r6)
}

/// Law through 600 and 300 above a reading that yield alone gives.
fn from_high_speeds(
    model: Model,
    readings: &DialReadings,
    threshold: f64,
) -> Result<Rheology, FluidError> {
    let (r600, r300) = high_speeds(model, readings, threshold)?;
    let (above_600, above_300) = (r600 - threshold, r300 - threshold);
    let index = (above_600 / above_300).log2();
    let consistency = STRESS_PER_DEGREE * above_300 / RATE_AT_300.powf(index);
    Rheology::new(Pressure::pascals(STRESS_PER_DEGREE * threshold), consistency, index)
}

fn high_speeds(
    model: Model,
    readings: &DialReadings,
    threshold: f64,
) -> Result<(f64, f64), FluidError> {
    let r600 = reading(model, "600", Some(readings.r600))?;
    let r300 = reading(model, "300", Some(readings.r300))?;
    rising(model, ("300", r300), ("600", r600))?;
    if r300 <= threshold {
        let why = format!("the reading at 300 is {r300}, not above the yield of {threshold}");
        return Err(unreadable(model, why));
    }
    Ok((r600, r300))
}

fn reading(model: Model, speed: &str, value: Option<f64>) -> Result<f64, FluidError> {
    match value {
        Some(r) if r.is_finite() && r > 0.0 => Ok(r),
        Some(r) => {
            Err(unreadable(model, format!("the reading at {speed} must be above 0, was {r}")))
        }
        None => Err(unreadable(model, format!("the reading at {speed} is missing"))),
    }
}

fn rising(model: Model, slow: (&str, f64), fast: (&str, f64)) -> Result<(), FluidError> {
    if fast.1 > slow.1 {
        return Ok(());
    }
    let why = format!(
        "the reading at {} is {}, not above that at {}, which is {}",
        fast.0, fast.1, slow.0, slow.1
    );
    Err(unreadable(model, why))
}

fn unreadable(model: Model, why: String) -> FluidError {
    FluidError::Unreadable { model: model.word(), why }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn readings(r600: f64, r300: f64, r100: f64, r6: f64, r3: f64) -> DialReadings {
        DialReadings { r600, r300, r100: Some(r100), r6: Some(r6), r3: Some(r3) }
    }

    #[test]
    fn without_yield_the_fit_is_the_power_law_and_says_so() {
        let r = readings(50.0, 35.0, 22.0, 10.0, 5.0);
        let hb = fit(Model::HerschelBulkley, &r).unwrap();
        assert!(hb.remark.is_some());
        assert_eq!(hb.rheology, fit(Model::PowerLawPipe, &r).unwrap().rheology);
        let with = fit(Model::HerschelBulkley, &readings(50.0, 35.0, 22.0, 10.0, 9.0)).unwrap();
        assert!(with.remark.is_none() && with.rheology.yield_stress().si() > 4.0);
    }

    #[test]
    fn missing_and_impossible_readings_are_named() {
        let why = |model: Model, r: &DialReadings| fit(model, r).unwrap_err().to_string();
        let few = DialReadings { r600: 50.0, r300: 35.0, r100: None, r6: None, r3: None };
        assert!(why(Model::PowerLawAnnulus, &few).contains("at 100 is missing"));
        assert!(why(Model::HerschelBulkley, &few).contains("at 6 is missing"));
        let falling = readings(35.0, 35.0, 22.0, 10.0, 9.0);
        assert!(why(Model::Bingham, &falling).contains("at 600 is 35, not above"));
        let stiff = readings(20.0, 10.0, 9.0, 10.0, 10.0);
        assert!(why(Model::HerschelBulkley, &stiff).contains("yield of 10"));
        let odd = readings(50.0, 35.0, 22.0, 8.0, 9.0);
        assert!(why(Model::HerschelBulkley, &odd).contains("at 3 is 9"));
        let thickening = readings(71.0, 35.0, 22.0, 10.0, 9.0);
        assert!(why(Model::Bingham, &thickening).contains("negative"));
        let nan = readings(f64::NAN, 35.0, 22.0, 10.0, 9.0);
        assert!(why(Model::PowerLawPipe, &nan).contains("at 600"));
        assert_eq!(fit(Model::Bingham, &falling).unwrap_err().code(), "unreadable_readings");
    }

    proptest! {
        #[test]
        fn a_fit_gives_its_readings_back(
            r3 in 1.0f64..15.0, six in 1.01f64..1.9, hundred in 2.1f64..4.0,
            three_hundred in 1.2f64..2.0, six_hundred in 1.1f64..1.9,
        ) {
            let (r6, r100) = (r3 * six, r3 * hundred);
            let r300 = r100 * three_hundred;
            let r600 = r300 * six_hundred;
            let r = readings(r600, r300, r100, r6, r3);
            let dial = |model: Model, rate: f64| {
                fit(model, &r).unwrap().rheology.stress(rate).unwrap().si() / STRESS_PER_DEGREE
            };
            for model in [Model::PowerLawPipe, Model::HerschelBulkley] {
                prop_assert!((dial(model, 1022.0) / r600 - 1.0).abs() < 1e-12);
                prop_assert!((dial(model, 511.0) / r300 - 1.0).abs() < 1e-12);
            }
            let annulus = Model::PowerLawAnnulus;
            prop_assert!((dial(annulus, 170.3) / r100 - 1.0).abs() < 1e-12);
            prop_assert!((dial(annulus, 170.3 * 0.03) / r3 - 1.0).abs() < 1e-12);
            // The field rule of Bingham's model counts a degree as a mPa·s and as a
            // lbf/100 ft² at once: the two differ by a part in fifteen.
            prop_assert!((dial(Model::Bingham, 1022.0) / r600 - 1.0).abs() < 0.07);
        }
    }
}
