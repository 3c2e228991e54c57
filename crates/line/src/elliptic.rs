use std::f64::consts::PI;

/// Nodes and weights of the ten-point Gauss–Legendre rule on −1..1, positive half.
///
/// Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4; a test checks that the
/// rule integrates all powers up to nineteen.
const GAUSS: [(f64, f64); 5] = [
    (0.148_874_338_981_631_22, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_35),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

/// Integral of a smooth function by one ten-point Gauss–Legendre rule.
pub(crate) fn gauss(f: impl Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    half * GAUSS.iter().map(|(x, w)| w * (f(middle - half * x) + f(middle + half * x))).sum::<f64>()
}

/// Incomplete elliptic integral of the second kind E(φ | m) = ∫₀^φ sqrt(1 − m sin²u) du, 0 ≤ m ≤ 1,
/// any φ.
///
/// By Carlson's symmetric integrals, E = s·R_F(c², 1 − m s², 1) − m s³/3·R_D(c², 1 − m s², 1) on
/// −π/2..π/2 and E(φ + nπ) = E(φ) + 2n E(π/2). Source: Carlson, Numerical computation of real or
/// complex elliptic integrals, 1995.
pub(crate) fn second_kind(phi: f64, m: f64) -> f64 {
    let turns = (phi / PI).round();
    let rest = phi - turns * PI;
    let whole = if turns == 0.0 { 0.0 } else { 2.0 * turns * on_quarter(1.0, 0.0, m) };
    whole + on_quarter(rest.sin(), rest.cos(), m)
}

fn on_quarter(s: f64, c: f64, m: f64) -> f64 {
    let rest = 1.0 - m;
    // As m reaches 1 the integrand becomes the cosine; below this its difference is lost in
    // rounding, and R_F has no value for two zero arguments.
    if rest < 1e-15 {
        return s;
    }
    let (x, y) = (c * c, c * c + rest * s * s);
    s * carlson_f(x, y, 1.0) - m * s * s * s / 3.0 * carlson_d(x, y, 1.0)
}

/// Steps after which the arguments agree to rounding: each divides their spread by four.
const STEPS: usize = 40;

fn carlson_f(mut x: f64, mut y: f64, mut z: f64) -> f64 {
    for _ in 0..STEPS {
        let (a, b, c) = (x.sqrt(), y.sqrt(), z.sqrt());
        let lambda = a * b + b * c + c * a;
        (x, y, z) = (0.25 * (x + lambda), 0.25 * (y + lambda), 0.25 * (z + lambda));
        let mean = (x + y + z) / 3.0;
        if (x - mean).abs().max((y - mean).abs()).max((z - mean).abs()) < 1e-3 * mean {
            break;
        }
    }
    let mean = (x + y + z) / 3.0;
    let (dx, dy) = ((mean - x) / mean, (mean - y) / mean);
    let dz = -dx - dy;
    let (e2, e3) = (dx * dy - dz * dz, dx * dy * dz);
    let series = 1.0 - e2 / 10.0 + e3 / 14.0 + e2 * e2 / 24.0 - 3.0 * e2 * e3 / 44.0;
    series / mean.sqrt()
}

fn carlson_d(mut x: f64, mut y: f64, mut z: f64) -> f64 {
    let (mut sum, mut factor) = (0.0, 1.0);
    for _ in 0..STEPS {
        let (a, b, c) = (x.sqrt(), y.sqrt(), z.sqrt());
        let lambda = a * b + b * c + c * a;
        sum += factor / (c * (z + lambda));
        factor *= 0.25;
        (x, y, z) = (0.25 * (x + lambda), 0.25 * (y + lambda), 0.25 * (z + lambda));
        let mean = (x + y + 3.0 * z) / 5.0;
        if (x - mean).abs().max((y - mean).abs()).max((z - mean).abs()) < 1e-3 * mean {
            break;
        }
    }
    let mean = (x + y + 3.0 * z) / 5.0;
    let (dx, dy) = ((mean - x) / mean, (mean - y) / mean);
    let dz = -(dx + dy) / 3.0;
    let (xy, z2) = (dx * dy, dz * dz);
    let (e2, e3) = (xy - 6.0 * z2, (3.0 * xy - 8.0 * z2) * dz);
    let (e4, e5) = (3.0 * (xy - z2) * z2, xy * z2 * dz);
    let series = 1.0 - 3.0 * e2 / 14.0 + e3 / 6.0 + 9.0 * e2 * e2 / 88.0
        - 3.0 * e4 / 22.0
        - 9.0 * e2 * e3 / 52.0
        + 3.0 * e5 / 26.0;
    3.0 * sum + factor * series / (mean * mean.sqrt())
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::*;

    #[test]
    fn the_rule_integrates_powers_up_to_nineteen() {
        for power in 0..20 {
            let exact = 1.0 / f64::from(power + 1);
            approx::assert_relative_eq!(
                gauss(|x| x.powi(power), 0.0, 1.0),
                exact,
                max_relative = 4e-15
            );
        }
    }

    #[test]
    fn second_kind_agrees_with_fine_quadrature_and_with_its_limits() {
        approx::assert_relative_eq!(second_kind(0.7, 0.0), 0.7, max_relative = 1e-15);
        approx::assert_relative_eq!(second_kind(0.7, 1.0), 0.7f64.sin(), max_relative = 1e-15);
        approx::assert_relative_eq!(second_kind(FRAC_PI_2 + 0.3, 1.0), 2.0 - 0.3f64.cos());
        for m in [0.1, 0.5, 0.9, 0.999] {
            for phi in [-4.0, -1.2, 0.3, 1.5, 2.0, 3.3, 9.0f64] {
                let n = 4000;
                let h = phi / f64::from(n);
                let f = |u: f64| (1.0 - m * u.sin().powi(2)).sqrt();
                let fine: f64 =
                    (0..n).map(|i| gauss(f, h * f64::from(i), h * f64::from(i + 1))).sum();
                approx::assert_relative_eq!(second_kind(phi, m), fine, max_relative = 1e-12);
            }
        }
    }
}
