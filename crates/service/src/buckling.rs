use quantity::{Length, Pressure, unit};

use crate::ServiceError;
use crate::error::{finite, positive, ring, within};

/// Poisson's ratio of ductile iron; from memory, 0.25 in EN handbooks to 0.28 in AWWA and surge
/// guides.
pub const POISSON: f64 = 0.28;

/// Reduction of the buckling pressure by an ovality `δ`, `[(1 − δ) / (1 + δ)²]³`.
///
/// # Source
/// Practice for plastic pipe, from memory.
/// # Errors
/// [`ServiceError::OutOfRange`] for an ovality outside 0 to 1.
pub fn ovality_factor(ovality: f64) -> Result<f64, ServiceError> {
    let d = within("ovality", ovality, unit::PERCENT, (0.0..1.0).contains(&ovality), || {
        "0 or more and less than 100 %".to_owned()
    })?;
    Ok(((1.0 - d) / (1.0 + d).powi(2)).powi(3))
}

/// Pressure from outside at which a free ring buckles.
///
/// ```text
/// p_cr = 2 E / (1 − ν²) · ( e / (DE − e) )³ · f_o
/// ```
/// | symbol | meaning                      | unit | argument           |
/// |--------|------------------------------|------|--------------------|
/// | E      | modulus of the iron          | Pa   | `modulus`          |
/// | ν      | Poisson's ratio              | –    | `poisson`          |
/// | e      | least wall                   | m    | `wall_min`         |
/// | DE     | outside diameter             | m    | `outside_diameter` |
/// | f_o    | [`ovality_factor`]           | –    | `ovality`          |
///
/// No support by soil or grout, no lining, no safety: practice asks for 2 (installation) to 2.5.
///
/// # Source
/// Theory of thin rings (Bresse, Lévy); exact for thin walls.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/ring-buckling.toml` (computed); property: 24 × ring stiffness / (1 − ν²).
pub fn ring_buckling(
    outside_diameter: Length,
    wall_min: Length,
    modulus: Pressure,
    poisson: f64,
    ovality: f64,
) -> Result<Pressure, ServiceError> {
    let (de, e) = ring("outside diameter", outside_diameter.si(), wall_min.si())?;
    let modulus = positive("modulus of elasticity", modulus.si(), unit::GPA)?;
    let nu = within("Poisson's ratio", poisson, unit::ONE, (0.0..0.5).contains(&poisson), || {
        "0 or more and less than 0.5".to_owned()
    })?;
    let factor = ovality_factor(ovality)?;
    finite("buckling pressure", 2.0 * modulus / (1.0 - nu * nu) * (e / (de - e)).powi(3) * factor)
        .map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use pipe::EN545_MODULUS;
    use proptest::prelude::*;

    use super::*;
    use crate::ring_stiffness;

    #[test]
    fn one_percent_of_ovality_costs_nine_percent_of_pressure() {
        assert!((ovality_factor(0.01).expect("valid") - 0.914).abs() < 5e-4);
        assert!(ovality_factor(1.0).is_err() && ovality_factor(f64::NAN).is_err());
    }

    proptest! {
        #[test]
        fn buckling_is_24_times_the_ring_stiffness(de in 80.0f64..2100.0, share in 0.005f64..0.1) {
            let (d, e) = (Length::millimetres(de), Length::millimetres(de * share));
            let p = ring_buckling(d, e, EN545_MODULUS, POISSON, 0.0).unwrap().si();
            let s = ring_stiffness(d, e).unwrap().si();
            prop_assert!((p * (1.0 - POISSON * POISSON) / (24.0 * s) - 1.0).abs() < 1e-12);
        }
    }
}
