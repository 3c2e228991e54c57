/// Why no root was found.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum RootError {
    /// The function has the same sign at both ends.
    #[error(
        "no change of sign between {from} and {to}: the function is {at_from} and {at_to} there"
    )]
    NoSignChange {
        /// Lower end of the bracket.
        from: f64,
        /// Upper end of the bracket.
        to: f64,
        /// Value at the lower end.
        at_from: f64,
        /// Value at the upper end.
        at_to: f64,
    },
    /// The function returned NaN or an infinity.
    #[error("the function has no finite value at {0}")]
    NotFinite(f64),
}

/// Root of `f` in a bracket whose ends have opposite signs, by Brent's method.
///
/// # Tolerance
/// The root is bracketed to `tolerance` (absolute, in the argument) plus four units in the last place. Cost grows with
/// the logarithm of `(to − from) / tolerance` at worst; 1e-12 of the bracket costs about ten evaluations.
///
/// # Source
/// Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4 (inverse quadratic interpolation with
/// bisection as the safe step); own implementation.
///
/// # Errors
/// [`RootError`] when the ends have the same sign or a value is not finite. Nothing is extrapolated.
pub fn root(
    mut f: impl FnMut(f64) -> f64,
    from: f64,
    to: f64,
    tolerance: f64,
) -> Result<f64, RootError> {
    let mut eval = |x: f64| {
        let y = f(x);
        if y.is_finite() { Ok(y) } else { Err(RootError::NotFinite(x)) }
    };
    let (mut a, mut b) = (from, to);
    let (mut fa, mut fb) = (eval(a)?, eval(b)?);
    if fa == 0.0 {
        return Ok(a);
    }
    if fb != 0.0 && fa.is_sign_positive() == fb.is_sign_positive() {
        return Err(RootError::NoSignChange { from, to, at_from: fa, at_to: fb });
    }
    let (mut c, mut fc) = (a, fa);
    let mut step = b - a;
    let mut previous = step;
    loop {
        if fb.is_sign_positive() == fc.is_sign_positive() {
            (c, fc) = (a, fa);
            step = b - a;
            previous = step;
        }
        if fc.abs() < fb.abs() {
            (a, fa) = (b, fb);
            (b, fb) = (c, fc);
            (c, fc) = (a, fa);
        }
        let half = 0.5 * (c - b);
        let close = 2.0 * f64::EPSILON * b.abs() + 0.5 * tolerance;
        if half.abs() <= close || fb == 0.0 {
            return Ok(b);
        }
        if previous.abs() >= close && fa.abs() > fb.abs() {
            let s = fb / fa;
            let (mut p, mut q) = if a == c {
                (2.0 * half * s, 1.0 - s)
            } else {
                let (q, r) = (fa / fc, fb / fc);
                (
                    s * (2.0 * half * q * (q - r) - (b - a) * (r - 1.0)),
                    (q - 1.0) * (r - 1.0) * (s - 1.0),
                )
            };
            if p > 0.0 {
                q = -q;
            } else {
                p = -p;
            }
            if 2.0 * p < (3.0 * half * q - (close * q).abs()).min((previous * q).abs()) {
                previous = step;
                step = p / q;
            } else {
                step = half;
                previous = half;
            }
        } else {
            step = half;
            previous = half;
        }
        (a, fa) = (b, fb);
        b += if step.abs() > close { step } else { close.copysign(half) };
        fb = eval(b)?;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_of_known_functions_are_found_to_the_tolerance() {
        type Function = fn(f64) -> f64;
        let cases: [(&str, Function, f64, f64, f64); 4] = [
            ("square root of two", |x| x * x - 2.0, 0.0, 2.0, std::f64::consts::SQRT_2),
            ("flat cubic", |x| (x - 1.0).powi(3), 0.0, 3.0, 1.0),
            ("cosine", f64::cos, 1.0, 2.0, std::f64::consts::FRAC_PI_2),
            ("steep", |x| (50.0 * (x - 0.3)).tanh(), -10.0, 10.0, 0.3),
        ];
        for (name, f, from, to, expected) in cases {
            let found = root(f, from, to, 1e-12).unwrap();
            let accuracy = if name == "flat cubic" { 1e-4 } else { 1e-11 };
            assert!((found - expected).abs() < accuracy, "{name}: {found} against {expected}");
        }
    }

    #[test]
    fn ends_of_equal_sign_and_nan_are_refused() {
        assert!(matches!(
            root(|x| x * x + 1.0, -1.0, 1.0, 1e-9),
            Err(RootError::NoSignChange { .. })
        ));
        assert!(matches!(root(|_| f64::NAN, -1.0, 1.0, 1e-9), Err(RootError::NotFinite(_))));
    }
}
