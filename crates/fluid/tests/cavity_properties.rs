//! What must hold for any bore in any ground.

use fluid::{Cavity, UndrainedCavity};
use proptest::prelude::*;
use quantity::{Angle, Length, Pressure};

fn grounds() -> impl Strategy<Value = (Cavity, f64)> {
    (1.0f64..500.0, 1.0f64..45.0, 0.0f64..50.0, 2000.0f64..50_000.0, 0.04f64..0.8, 1.05f64..60.0)
        .prop_map(|(sigma, phi, c, g, r0, share)| {
            let bore = Cavity {
                effective_stress: Pressure::kilopascals(sigma),
                friction_angle: Angle::degrees(phi),
                cohesion: Pressure::kilopascals(c),
                shear_modulus: Pressure::kilopascals(g),
                bore_radius: Length::metres(r0),
            };
            (bore, share)
        })
        .prop_filter("small strains", |(bore, _)| bore.stiffness_ratio().is_ok_and(|q| q < 0.2))
}

fn clays() -> impl Strategy<Value = (UndrainedCavity, f64)> {
    (0.0f64..500.0, 5.0f64..150.0, 10.0f64..500.0, 0.04f64..0.8, 1.15f64..60.0).prop_map(
        |(sigma, su, rigidity, r0, share)| {
            let bore = UndrainedCavity {
                total_stress: Pressure::kilopascals(sigma),
                undrained_strength: Pressure::kilopascals(su),
                shear_modulus: Pressure::kilopascals(su * rigidity),
                bore_radius: Length::metres(r0),
            };
            (bore, share)
        },
    )
}

proptest! {
    #[test]
    fn the_limit_rises_with_stress_friction_cohesion_and_modulus((bore, share) in grounds()) {
        let rp = bore.bore_radius * share;
        let of = |bore: &Cavity| bore.pressure(rp).unwrap().si();
        let base = of(&bore);
        let more = Pressure::from_si(1e3);
        let mut changed = bore;
        changed.effective_stress = bore.effective_stress + more;
        prop_assert!(of(&changed) > base);
        // With cohesion more friction may cost strength: c cos φ falls.
        let sand = Cavity { cohesion: Pressure::ZERO, ..bore };
        changed = Cavity { friction_angle: bore.friction_angle * 1.05, ..sand };
        prop_assert!(of(&changed) > of(&sand));
        changed = Cavity { cohesion: bore.cohesion + more, ..bore };
        prop_assert!(of(&changed) > base);
        changed = Cavity { shear_modulus: bore.shear_modulus * 1.1, ..bore };
        prop_assert!(of(&changed) >= base);
        changed = Cavity { bore_radius: bore.bore_radius * 0.9, ..bore };
        prop_assert!(of(&changed) >= base);
        prop_assert!(bore.pressure(rp * 1.1).unwrap().si() >= base);
    }

    #[test]
    fn it_lies_between_first_yield_and_the_zone_without_end((bore, share) in grounds()) {
        let p = bore.pressure(bore.bore_radius * share).unwrap();
        prop_assert!(p >= bore.first_yield().unwrap() && p < bore.unlimited().unwrap());
        prop_assert_eq!(bore.pressure(bore.bore_radius).unwrap(), bore.first_yield().unwrap());
        prop_assert!(bore.first_yield().unwrap() > bore.effective_stress);
        prop_assert!(bore.wall_growth(bore.bore_radius * share).unwrap() > 1.0);
    }

    #[test]
    fn the_radius_at_a_pressure_inverts_the_pressure((bore, share) in grounds()) {
        let rp = bore.bore_radius * share;
        let p = bore.pressure(rp).unwrap();
        let first = bore.first_yield().unwrap();
        prop_assume!(p > first);
        let back = bore.plastic_radius_at(p).unwrap().unwrap();
        prop_assert!((back / rp - 1.0).abs() < 1e-7, "{} {}", back, rp);
        prop_assert_eq!(bore.plastic_radius_at(first * 0.999).unwrap(), None);
        prop_assert!(bore.plastic_radius_at(bore.unlimited().unwrap()).is_err());
        let begins = bore.plastic_radius_at(first).unwrap().unwrap() / bore.bore_radius;
        let q = bore.stiffness_ratio().unwrap();
        prop_assert!((begins * (1.0 - q).sqrt() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_strain_limit_does_not_know_the_radius_of_the_bore(
        (bore, share) in grounds(), strain in 0.001f64..0.2,
    ) {
        let other = Cavity { bore_radius: bore.bore_radius * share, ..bore };
        let p = bore.strain_limited_pressure(strain).unwrap();
        prop_assert!((other.strain_limited_pressure(strain).unwrap() / p - 1.0).abs() < 1e-9);
        prop_assert!(bore.strain_limited_pressure(strain * 0.99).unwrap() <= p);
        let rp = bore.strain_limited_radius(strain).unwrap();
        if rp >= bore.bore_radius {
            let grown = bore.wall_growth(rp).unwrap();
            prop_assert!((grown * grown - 1.0 - 2.0 * strain).abs() < 1e-9);
        } else {
            prop_assert!(p <= bore.first_yield().unwrap());
        }
    }

    #[test]
    fn clay_behaves_alike((bore, share) in clays(), strain in 0.001f64..0.2) {
        let rp = bore.bore_radius * share;
        let p = bore.pressure(rp).unwrap();
        let first = bore.first_yield().unwrap();
        prop_assert!(p >= first && p < bore.unlimited().unwrap());
        let firm = UndrainedCavity { shear_modulus: bore.shear_modulus * 1.1, ..bore };
        prop_assert!(firm.pressure(rp).unwrap() >= p);
        prop_assert_eq!(bore.plastic_radius_at(first * 0.999).unwrap(), None);
        if p > first {
            let back = bore.plastic_radius_at(p).unwrap().unwrap();
            prop_assert!((back / rp - 1.0).abs() < 1e-7, "{} {}", back, rp);
        }
        let other = UndrainedCavity { bore_radius: bore.bore_radius * share, ..bore };
        let limited = bore.strain_limited_pressure(strain).unwrap();
        let ratio = other.strain_limited_pressure(strain).unwrap() / limited;
        prop_assert!((ratio - 1.0).abs() < 1e-9);
    }

    #[test]
    fn any_numbers_give_a_finite_result_or_an_error(
        numbers in proptest::array::uniform7(prop_oneof![
            proptest::num::f64::ANY, 0.0f64..1.0, 1e3f64..1e7,
        ]),
    ) {
        let [sigma, phi, c, g, r0, rp, p] = numbers;
        let [sigma, c, g, p] = [sigma, c, g, p].map(Pressure::from_si);
        let [r0, rp] = [r0, rp].map(Length::from_si);
        let drained = Cavity {
            effective_stress: sigma, friction_angle: Angle::from_si(phi), cohesion: c,
            shear_modulus: g, bore_radius: r0,
        };
        let clay = UndrainedCavity {
            total_stress: sigma, undrained_strength: c, shear_modulus: g, bore_radius: r0,
        };
        let pressures = [
            drained.first_yield(), drained.pressure(rp), drained.unlimited(),
            drained.strain_limited_pressure(phi), clay.first_yield(), clay.pressure(rp),
            clay.unlimited(), clay.strain_limited_pressure(phi),
        ];
        prop_assert!(pressures.iter().flatten().all(|p| p.is_finite()));
        let numbers = [drained.stiffness_ratio(), drained.wall_growth(rp), clay.wall_growth(rp)];
        prop_assert!(numbers.iter().flatten().all(|x| x.is_finite()));
        let radii = [drained.plastic_radius_at(p), clay.plastic_radius_at(p)];
        prop_assert!(radii.iter().flatten().flatten().all(|r| r.is_finite()));
    }
}

#[test]
fn ground_without_a_limit_is_refused_and_the_reason_named() {
    let bore = Cavity {
        effective_stress: Pressure::kilopascals(60.0),
        friction_angle: Angle::degrees(32.0),
        cohesion: Pressure::ZERO,
        shear_modulus: Pressure::megapascals(5.0),
        bore_radius: Length::metres(0.15),
    };
    let rp = Length::metres(4.0);
    let refused = |bore: Cavity| bore.pressure(rp).unwrap_err().to_string();
    let soft = Cavity { shear_modulus: Pressure::kilopascals(31.0), ..bore };
    assert!(refused(soft).starts_with("shear modulus must be greater than the strength"));
    let steep = Cavity { friction_angle: Angle::degrees(61.0), ..bore };
    assert!(refused(steep).starts_with("friction angle must be 0"), "{}", refused(steep));
    let small = bore.pressure(Length::metres(0.1)).unwrap_err().to_string();
    assert!(small.starts_with("plastic radius must be at least the bore radius"), "{small}");
    // At the mouth of a bore in sand there is no stress and no strength: the limit is zero.
    let mouth = Cavity { effective_stress: Pressure::ZERO, ..bore };
    assert_eq!(mouth.first_yield().unwrap(), Pressure::ZERO);
    assert_eq!(mouth.pressure(rp).unwrap(), Pressure::ZERO);
    assert!(mouth.unlimited().unwrap_err().to_string().starts_with("strength of the ground"));
    let beyond = bore.plastic_radius_at(bore.unlimited().unwrap()).unwrap_err().to_string();
    assert!(beyond.contains("grows without end"), "{beyond}");
    assert!(bore.strain_limited_radius(0.21).is_err() && bore.strain_limited_radius(0.0).is_err());
}
