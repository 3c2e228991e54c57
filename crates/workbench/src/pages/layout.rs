//! What all pages have around them.

use maud::{DOCTYPE, Markup, html};

use crate::app::{LOCAL, Shared};

/// Where a page belongs.
pub enum Place<'a> {
    /// The list of designs.
    Designs,
    /// A page of a design: number, name, which page.
    Design(i64, &'a str, &'static str),
    /// The bench.
    Bench,
    /// Elsewhere.
    Other,
}

/// A whole page.
pub fn page(app: &Shared, title: &str, place: &Place<'_>, body: Markup) -> Markup {
    let preference = |key| app.store().preference(LOCAL, key).ok().flatten();
    let theme = preference("theme").unwrap_or_else(|| "system".to_owned());
    let units = preference("units").unwrap_or_else(|| "metric".to_owned());
    let name = preference("name").unwrap_or_default();
    html! {
        (DOCTYPE)
        html lang="en" data-theme=(theme) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) " – underhaul" }
                link rel="icon" href="data:,";
                link rel="stylesheet" href="/assets/style.css";
                script type="module" src="/assets/page.js" {}
            }
            body {
                a.skip href="#main" { "to the content" }
                header.top {
                    nav aria-label="pages" {
                        a.mark href="/" { "underhaul" }
                        (link("/", "designs", matches!(place, Place::Designs)))
                        (link("/bench", "bench", matches!(place, Place::Bench)))
                        @if let Place::Design(id, name, which) = place {
                            span.of { (name) }
                            @for (address, word) in [("", "line"), ("/text", "text"), ("/documents", "documents"), ("/history", "history")] {
                                (link(&format!("/designs/{id}{address}"), word, *which == word))
                            }
                        }
                    }
                    form.preferences {
                        label { "name " input name="name" value=(name) maxlength="80" autocomplete="off" size="10"; }
                        label { "units "
                            select name="units" {
                                option value="metric" selected[units == "metric"] { "metric" }
                                option value="us" selected[units == "us"] { "US" }
                            }
                        }
                        label { "light "
                            select name="theme" {
                                @for word in ["system", "light", "dark"] {
                                    option value=(word) selected[theme == word] { (word) }
                                }
                            }
                        }
                    }
                }
                p #message role="status" aria-live="polite" hidden {}
                main #main { (body) }
                footer {
                    "An aid to a qualified engineer: local codes, the authority and licensed practice decide."
                }
            }
        }
    }
}

fn link(address: &str, word: &str, here: bool) -> Markup {
    html! { a href=(address) aria-current=[here.then_some("page")] { (word) } }
}

/// A time as a reader sees it; the page turns it into local time.
pub fn time(at: i64) -> Markup {
    html! { time data-at=(at) { (utc(at)) } }
}

/// Date and time of day (UTC) of milliseconds since 1970 began.
pub fn utc(at: i64) -> String {
    let seconds = at.div_euclid(1000);
    let (day, rest) = (seconds.div_euclid(86_400), seconds.rem_euclid(86_400));
    let (year, month, date) = civil(day);
    format!("{year:04}-{month:02}-{date:02} {:02}:{:02} UTC", rest / 3600, rest % 3600 / 60)
}

/// Gregorian day of a number of days since 1970 began; counts from 1 March 0000, so that the leap day ends a year.
fn civil(days: i64) -> (i64, i64, i64) {
    let z = days + 719_468;
    let era = z.div_euclid(146_097);
    let day_of_era = z.rem_euclid(146_097);
    let year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let shifted = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * shifted + 2) / 5 + 1;
    let month = if shifted < 10 { shifted + 3 } else { shifted - 9 };
    (era * 400 + year_of_era + i64::from(month <= 2), month, day)
}

#[cfg(test)]
mod tests {
    use super::utc;

    #[test]
    fn days_of_the_calendar_come_out_right() {
        assert_eq!(utc(0), "1970-01-01 00:00 UTC");
        assert_eq!(utc(951_782_400_000), "2000-02-29 00:00 UTC");
        assert_eq!(utc(1_795_613_460_000), "2026-11-25 13:31 UTC");
        assert_eq!(utc(-1), "1969-12-31 23:59 UTC");
    }
}
