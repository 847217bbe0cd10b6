//! The calendar: today's date, for what is printed, and the time, for what is kept.

use std::time::{SystemTime, UNIX_EPOCH};

const SECONDS_A_DAY: u64 = 86_400;

/// Today (UTC) as `2026-11-25` (ISO 8601); none where the clock stands before 1970.
pub fn today() -> Option<String> {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    Some(iso(since.as_secs() / SECONDS_A_DAY))
}

/// Seconds since 1970 (UTC); none where the clock stands before that.
pub fn now() -> Option<u64> {
    Some(SystemTime::now().duration_since(UNIX_EPOCH).ok()?.as_secs())
}

/// A time as `2026-11-25 16:55 UTC`.
pub fn minute(seconds: u64) -> String {
    let minutes = seconds / 60;
    format!("{} {:02}:{:02} UTC", iso(seconds / SECONDS_A_DAY), minutes / 60 % 24, minutes % 60)
}

/// How long ago something was, in words.
pub fn ago(then: u64, now: u64) -> String {
    let seconds = now.saturating_sub(then);
    let (count, word) = match seconds {
        0..60 => return "less than a minute ago".to_owned(),
        60..3600 => (seconds / 60, "minute"),
        3600..SECONDS_A_DAY => (seconds / 3600, "hour"),
        _ => (seconds / SECONDS_A_DAY, "day"),
    };
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {word}{plural} ago")
}

/// The date of a day counted from 1970-01-01, by the Gregorian calendar: years of 365 days and
/// their leap days in eras of 400 years that begin in March (H. Hinnant, "chrono-compatible
/// low-level date algorithms").
fn iso(day: u64) -> String {
    let shifted = day + 719_468;
    let (era, day_of_era) = (shifted / 146_097, shifted % 146_097);
    let year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let month_from_march = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * month_from_march + 2) / 5 + 1;
    let month = if month_from_march < 10 { month_from_march + 3 } else { month_from_march - 9 };
    let year = year_of_era + era * 400 + u64::from(month <= 2);
    format!("{year:04}-{month:02}-{day:02}")
}

#[cfg(test)]
mod tests {
    use super::{ago, iso, minute};

    #[test]
    fn a_time_is_said_to_the_minute() {
        assert_eq!(minute(0), "1970-01-01 00:00 UTC");
        assert_eq!(minute(20_782 * 86_400 + 16 * 3600 + 55 * 60 + 59), "2026-11-25 16:55 UTC");
    }

    #[test]
    fn how_long_ago() {
        assert_eq!(ago(100, 120), "less than a minute ago");
        assert_eq!(ago(100, 160), "1 minute ago");
        assert_eq!(ago(0, 2 * 3600 + 59 * 60), "2 hours ago");
        assert_eq!(ago(0, 3 * 86_400), "3 days ago");
        assert_eq!(ago(10, 0), "less than a minute ago", "a clock that was put back");
    }

    #[test]
    fn days_that_are_known() {
        for (day, date) in [
            (0, "1970-01-01"),
            (58, "1970-02-28"),
            (59, "1970-03-01"),
            (11_016, "2000-02-29"),
            (11_017, "2000-03-01"),
            (20_782, "2026-11-25"),
            (47_540, "2100-02-28"),
            (47_541, "2100-03-01"),
        ] {
            assert_eq!(iso(day), date);
        }
    }
}
