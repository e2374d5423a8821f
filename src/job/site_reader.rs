//! The table `[site]` into its section: the place, and which of three ways its weather is given.
//!
//! Opens no weather and judges none. Start at [`site`].

use toml::de::DeValue;

use super::house_reader::OUTDOORS;
use super::limits::from_to;
use super::sections::{
    MonthlySection, SiteSection, WeatherClock, WeatherFormat, WeatherGaps, WeatherSection,
};
use super::table::Table;
use super::typed::Typed;
use super::values::{number, quantity, text, whole_number, word};
use super::wording::{Fault, described};
use crate::units::{Quantity, Temperature};

/// The keys of a synthetic year that must be given together.
const MONTHLY: [&str; 3] = ["monthly_highs", "monthly_lows", "heating_99"];
/// Those that may stand beside them.
const WITH_MONTHLY: [&str; 2] = ["monthly_means", "weather_seed"];
/// How far the 99 % temperature may lie below the lowest monthly low, K: a few kelvin; 1.0 to 13.8 (Northway) in the six
/// built-in years and 22 of France. Extreme lows lie farther. The same as a synthetic year's own bound.
const FARTHEST: f64 = 18.0;

/// Where a month's mean may lie between its low and its high, as a share of the way.
const BETWEEN: std::ops::RangeInclusive<f64> = 0.3..=0.7;

/// The words of `weather_format`.
const FORMATS: &[(&str, WeatherFormat)] = &[
    ("tmy3", WeatherFormat::Tmy3),
    ("tmy2", WeatherFormat::Tmy2),
    ("epw", WeatherFormat::Epw),
    ("isd_lite", WeatherFormat::IsdLite),
    ("nsrdb", WeatherFormat::Nsrdb),
    ("pvgis", WeatherFormat::Pvgis),
    ("plain_csv", WeatherFormat::PlainCsv),
    ("dated_csv", WeatherFormat::DatedCsv),
    ("bins", WeatherFormat::Bins),
];
const GAPS: &[(&str, WeatherGaps)] =
    &[("line", WeatherGaps::Line), ("neighbouring_days", WeatherGaps::NeighbouringDays)];
const CLOCKS: &[(&str, WeatherClock)] = &[("utc", WeatherClock::Utc), ("standard", WeatherClock::Standard)];

type Months = Typed<[Typed<Temperature>; 12]>;

/// Reads `[site]`.
pub(super) fn site(mut table: Table<'_>) -> Option<SiteSection> {
    let name = table.req("name", text);
    let weather = weather(&mut table);
    let weather_format = table.opt("weather_format", word(FORMATS));
    let weather_gaps = table.opt("weather_gaps", word(GAPS));
    let weather_clock = table.opt("weather_clock", word(CLOCKS));
    for key in ["weather_format", "weather_gaps", "weather_clock"] {
        for_files_only(&mut table, key);
    }
    let weather_year = table.opt("weather_year", whole_number(1850, 2200));
    let site_offset = table.opt("site_offset", quantity(from_to(-20.0, 20.0)));
    let time_zone = table.opt("time_zone", text);
    let elevation = table.opt("elevation", quantity(from_to(-500.0, 6000.0)));
    let extreme_low = table.opt("extreme_low", quantity(OUTDOORS));
    let grid = table.opt("grid", text);
    let grid_loss = table.opt("grid_loss", number(from_to(0.0, 0.3)));
    let grid_co2e = table.opt("grid_co2e", number(from_to(0.0, 2.0)));
    table.done();
    Some(SiteSection {
        name: name?,
        weather: weather?,
        weather_format,
        weather_gaps,
        weather_clock,
        weather_year,
        site_offset,
        time_zone,
        elevation,
        grid,
        grid_loss,
        grid_co2e,
        extreme_low,
    })
}

/// One path, or a list of them.
fn weather_files(table: &mut Table<'_>) -> Option<Vec<Typed<String>>> {
    if table.value("weather_file")?.get_ref().as_array().is_some() {
        return table.list("weather_file", text).map(|list| list.value);
    }
    table.opt("weather_file", text).map(|file| vec![file])
}

/// Only a file needs words on how to read it.
fn for_files_only(table: &mut Table<'_>, key: &'static str) {
    if table.has("weather_file") {
        return;
    }
    if let Some(value) = table.value(key) {
        let fault = Fault::new("there is no weather file that this could be said of");
        table.bad_form(key, &value.span(), fault.help("take this key out, or give a weather_file instead"));
    }
}

fn weather(table: &mut Table<'_>) -> Option<WeatherSection> {
    let given = MONTHLY.into_iter().chain(WITH_MONTHLY).find(|key| table.has(key));
    let Some(first) = given else {
        let weather = match table.one_of("weather", "weather_file") {
            Some("weather") => table.opt("weather", text).map(WeatherSection::BuiltIn),
            Some(_) => weather_files(table).map(WeatherSection::Files),
            None => None,
        };
        // Asked for all the same, so that a misspelt one is recognised.
        MONTHLY.into_iter().chain(WITH_MONTHLY).for_each(|key| _ = table.value(key));
        return weather;
    };
    let monthly = monthly(table).map(|section| WeatherSection::Monthly(Box::new(section)));
    let Some((other, value)) =
        ["weather", "weather_file"].into_iter().find_map(|key| Some((key, table.value(key)?)))
    else {
        let missing: Vec<_> = MONTHLY.into_iter().filter(|key| !table.has(key)).collect();
        missing.into_iter().for_each(|key| table.need(key));
        return monthly;
    };
    let fault = Fault::new(format!("{other} and {first} are both given; only one of them can hold"));
    table.bad_form(other, &value.span(), fault.help(format!("take {other} out, or {}", all_monthly())));
    None
}

fn all_monthly() -> String {
    format!("{}, {}", MONTHLY.join(", "), WITH_MONTHLY.join(" and "))
}

fn monthly(table: &mut Table<'_>) -> Option<MonthlySection> {
    let highs = months(table, "monthly_highs");
    let lows = months(table, "monthly_lows");
    let means = months(table, "monthly_means");
    let heating_99 = table.opt("heating_99", quantity(OUTDOORS));
    let weather_seed = table.opt("weather_seed", seed);
    if let (Some(highs), Some(lows)) = (&highs, &lows) {
        above(table, highs, lows);
        if let Some(means) = &means {
            between(table, (highs, lows), means);
        }
    }
    if let (Some(lows), Some(heating_99)) = (&lows, &heating_99) {
        belongs(table, lows, heating_99);
    }
    Some(MonthlySection {
        monthly_highs: highs?,
        monthly_lows: lows?,
        monthly_means: means,
        heating_99: heating_99?,
        weather_seed,
    })
}

fn months(table: &mut Table<'_>, key: &'static str) -> Option<Months> {
    let list = table.list(key, quantity(OUTDOORS))?;
    let count = list.value.len();
    match list.value.try_into() {
        Ok(twelve) => Some(Typed::new(twelve, list.span)),
        Err(_) => {
            let fault = Fault::new(format!("there must be twelve temperatures here, not {count}"));
            table.bad_value(key, &list.span, fault.help("give one for each month, January first"));
            None
        }
    }
}

fn seed(value: &DeValue<'_>) -> Result<u64, Fault> {
    let typed = value.as_integer().and_then(|n| i64::from_str_radix(n.as_str(), n.radix()).ok());
    typed.and_then(|n| u64::try_from(n).ok()).ok_or_else(|| {
        let fault = Fault::new(format!("a whole number from 0 is needed here, not {}", described(value)));
        fault.help("write weather_seed = 1; another number gives other days with the same means")
    })
}

/// Each month's high must lie above its low; tells the first that does not.
fn above(table: &Table<'_>, highs: &Months, lows: &Months) {
    let pairs = highs.value.iter().zip(&lows.value).enumerate();
    if let Some((month, (high, low))) = pairs.into_iter().find(|(_, (high, low))| high.base() <= low.base()) {
        let (typed_high, typed_low) = (table.typed(&high.span), table.typed(&low.span));
        let what =
            format!("temperature {} is {typed_high}, not above the {typed_low} of monthly_lows", month + 1);
        let help = "give both lists January first, and the highs in monthly_highs";
        table.bad_form("monthly_highs", &high.span, Fault::new(what).help(help));
    }
}

/// Each month's mean must lie about halfway between its low and its high; tells the first that does not.
fn between(table: &Table<'_>, (highs, lows): (&Months, &Months), means: &Months) {
    let months = highs.value.iter().zip(&lows.value).zip(&means.value).enumerate();
    let share = |high: f64, low: f64, mean: f64| (mean - low) / (high - low);
    let odd = months.into_iter().find(|(_, ((high, low), mean))| {
        high.base() > low.base() && !BETWEEN.contains(&share(high.base(), low.base(), mean.base()))
    });
    if let Some((month, ((high, low), mean))) = odd {
        let [high, low, typed] = [high, low, mean].map(|t| table.typed(&t.span));
        let what =
            format!("temperature {} is {typed}, not about halfway between {low} and {high}", month + 1);
        let help = "give the mean of all hours of each month, January first; or leave monthly_means out";
        let allowed = "from 3/10 to 7/10 of the way from low to high";
        table.bad_form("monthly_means", &mean.span, Fault::new(what).allowed(allowed).help(help));
    }
}

/// The 99 % temperature must be one that such months can have.
fn belongs(table: &Table<'_>, lows: &Months, heating_99: &Typed<Temperature>) {
    let coldest = lows.value.iter().min_by(|a, b| a.base().total_cmp(&b.base()));
    let Some(coldest) = coldest else { return };
    let reach = coldest.base() - heating_99.base();
    if (0.0..=FARTHEST).contains(&reach) {
        return;
    }
    let typed = (table.typed(&heating_99.span), table.typed(&coldest.span));
    let what = match reach < 0.0 {
        true => format!("{} is warmer than the coldest month's mean low, {}", typed.0, typed.1),
        false => format!("{} is too far below the coldest month's mean low, {}", typed.0, typed.1),
    };
    let fault = Fault::new(what).allowed("up to 32 degF (18 K) below the lowest of monthly_lows");
    let help = "take it from the same station: the temperature that 99 % of the year's hours are above, not an extreme low";
    table.bad_form("heating_99", &heating_99.span, fault.help(help));
}
