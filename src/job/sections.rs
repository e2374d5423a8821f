//! The job file as typed: one struct a section, field names are the keys.
//!
//! A section is what was typed, checked for form and range; what it means is built from it
//! elsewhere. Must never know formulas or defaults. Start at [`Job`].

use std::ops::Range;

use super::choices::OptionSection;
use super::costs::EconomicsSection;
use super::household::HouseholdSection;
use super::machines::EquipmentSection;
use super::past_use::PastUseSection;
use super::price_sections::PricesSection;
use super::supply::SupplySection;
use super::typed::{ClockTime, Typed};
use super::what_if::{DrawsSection, ScenarioSection, VarySection};
use crate::problem::Problem;
use crate::units::{
    Airflow, Area, Current, HeatCapacity, Length, Power, Temperature, TemperatureDifference, UnitSystem,
};

/// A whole job file: its text, and every value in it with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// The text itself.
    pub text: String,
    /// The file's name as given.
    pub file: String,
    /// SHA-256 of the text, in hexadecimal.
    pub sha256: String,
    /// `format`: 1.
    pub format: Typed<i64>,
    /// `[job]`.
    pub job: JobSection,
    /// `[site]`.
    pub site: SiteSection,
    /// `[house]`.
    pub house: HouseSection,
    /// `[past_use]`: bills that the need of the house is held against.
    pub past_use: Option<PastUseSection>,
    /// `[household]`: what people use beside heating and cooling.
    pub household: HouseholdSection,
    /// `[[equipment]]`, at least one, in the order typed.
    pub equipment: Vec<EquipmentSection>,
    /// `[[supply]]`, in the order typed; may be empty.
    pub supplies: Vec<SupplySection>,
    /// `[[option]]`, at least one, in the order typed.
    pub options: Vec<OptionSection>,
    /// `[prices]`.
    pub prices: PricesSection,
    /// `[economics]`.
    pub economics: EconomicsSection,
    /// `[[scenario]]`, in the order typed.
    pub scenarios: Vec<ScenarioSection>,
    /// `[draws]`.
    pub draws: DrawsSection,
    /// `[[vary]]`: inputs that are moved one at a time, in the order typed.
    pub vary: Vec<VarySection>,
}

impl Job {
    /// The machine of that name.
    pub fn machine(&self, name: &str) -> Option<&EquipmentSection> {
        self.equipment.iter().find(|machine| machine.name.value == name)
    }

    /// A problem that points at `span` of this job's text, with file and line filled in.
    ///
    /// `key` is the path of the key, for example `house.zone.main.design_load`.
    pub fn problem(&self, span: &Range<usize>, key: impl Into<String>, what: impl Into<String>) -> Problem {
        problem_at(&self.file, &self.text, span, key, what)
    }

    /// The line of the text, from 1, in which `span` begins.
    pub fn line(&self, span: &Range<usize>) -> usize {
        line_of(&self.text, span)
    }
}

fn line_of(text: &str, span: &Range<usize>) -> usize {
    let before = text.as_bytes().get(..span.start).unwrap_or_default();
    1 + before.iter().filter(|byte| **byte == b'\n').count()
}

/// A problem at `span` of `text`, with file and line filled in; none of the two where the span is
/// `0..0`, which stands for what is nowhere in the text.
pub fn problem_at(
    file: &str,
    text: &str,
    span: &Range<usize>,
    key: impl Into<String>,
    what: impl Into<String>,
) -> Problem {
    if *span == (0..0) {
        return Problem::new(what).in_file(file).at_key(key);
    }
    let line = line_of(text, span);
    Problem::new(what).in_file(file).at_line(line).at_key(key).at_span(span.clone())
}

/// `[job]`: what stands at the head of the report.
#[derive(Debug, Clone, PartialEq)]
pub struct JobSection {
    /// `title`.
    pub title: Typed<String>,
    /// `note`.
    pub note: Option<Typed<String>>,
    /// `prepared_by`.
    pub prepared_by: Option<Typed<String>>,
    /// `phone` of who prepared it.
    pub phone: Option<Typed<String>>,
    /// `logo` of who prepared it: the path of a PNG or SVG file, as typed.
    pub logo: Option<Typed<String>>,
    /// `customer`: for whom it is.
    pub customer: Option<Typed<String>>,
    /// `date`: `2026-03-15`.
    pub date: Option<Typed<String>>,
    /// `paper`; Letter with US units and A4 with SI units where nothing is typed.
    pub paper: Option<Typed<PaperWord>>,
    /// `currency`: its sign; `$` where none is typed (then the span is empty).
    pub currency: Typed<String>,
    /// `units`: what is printed; US where nothing is typed (then the span is empty).
    pub units: Typed<Units>,
}

/// `paper`: the sheets that are printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PaperWord {
    /// 8.5 by 11 inches.
    Letter,
    /// 210 by 297 mm.
    A4,
}

/// `units`: what is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Units {
    /// °F, Btu/h, gallons.
    Us,
    /// °C, kW, litres.
    Si,
}

impl Units {
    /// The system that these words mean.
    pub fn system(self) -> UnitSystem {
        match self {
            Self::Us => UnitSystem::Us,
            Self::Si => UnitSystem::Si,
        }
    }
}

/// `[site]`: where the house stands.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteSection {
    /// `name`.
    pub name: Typed<String>,
    /// `weather`, `weather_file` or the monthly means: exactly one of the three.
    pub weather: WeatherSection,
    /// `weather_format`: the file's layout; looked for where nothing is typed.
    pub weather_format: Option<Typed<WeatherFormat>>,
    /// `weather_gaps`: what fills hours without a temperature.
    pub weather_gaps: Option<Typed<WeatherGaps>>,
    /// `weather_clock`: the clock of the file's dates.
    pub weather_clock: Option<Typed<WeatherClock>>,
    /// `weather_year`: of a record of several years, the year of the July with which the twelve
    /// months begin that are run; 1850 to 2200.
    pub weather_year: Option<Typed<i32>>,
    /// `site_offset`: how much warmer the house stands than the weather station, -20 to 20 K.
    pub site_offset: Option<Typed<TemperatureDifference>>,
    /// `time_zone`: an IANA name such as `America/Chicago`, not yet looked up.
    pub time_zone: Option<Typed<String>>,
    /// `elevation` above the sea.
    pub elevation: Option<Typed<Length>>,
    /// `grid`: the id of the grid's region, not yet looked up.
    pub grid: Option<Typed<String>>,
    /// `grid_loss`: share lost between plants and house, 0 to 0.3.
    pub grid_loss: Option<Typed<f64>>,
    /// `grid_co2e`: kg for each kWh that plants give, 0 to 2, instead of a region's.
    pub grid_co2e: Option<Typed<f64>>,
    /// `extreme_low`: the coldest outdoor temperature to plan for.
    pub extreme_low: Option<Typed<Temperature>>,
}

/// Where the weather comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum WeatherSection {
    /// `weather`: the key of a built-in place, not yet looked up.
    BuiltIn(Typed<String>),
    /// `weather_file`: a path, as typed, or several that make one record.
    Files(Vec<Typed<String>>),
    /// `monthly_highs` and what goes with them: a synthetic year.
    Monthly(Box<MonthlySection>),
}

/// The keys of a synthetic year.
#[derive(Debug, Clone, PartialEq)]
pub struct MonthlySection {
    /// `monthly_highs`: mean daily maximum of each month, January first; each above its low.
    pub monthly_highs: Typed<[Typed<Temperature>; 12]>,
    /// `monthly_lows`: mean daily minimum of each month, January first.
    pub monthly_lows: Typed<[Typed<Temperature>; 12]>,
    /// `monthly_means`: mean of all hours of each month; without it halfway between high and low.
    pub monthly_means: Option<Typed<[Typed<Temperature>; 12]>>,
    /// `heating_99`: 99 % of the year's hours are at least as warm; not above the lowest low, nor more
    /// than 18 K below it.
    pub heating_99: Typed<Temperature>,
    /// `weather_seed`, 0 or more.
    pub weather_seed: Option<Typed<u64>>,
}

/// `weather_format`: the layout of a weather file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeatherFormat {
    /// TMY3.
    Tmy3,
    /// TMY2, of fixed width.
    Tmy2,
    /// EPW.
    Epw,
    /// ISD-Lite.
    IsdLite,
    /// NSRDB.
    Nsrdb,
    /// PVGIS.
    Pvgis,
    /// CSV with a row an hour.
    PlainCsv,
    /// CSV with a date in each row.
    DatedCsv,
    /// Hours by temperature.
    Bins,
}

/// `weather_gaps`: what fills hours without a temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeatherGaps {
    /// A straight line, up to six hours.
    Line,
    /// The same, and in longer gaps the same hour of the neighbouring days.
    NeighbouringDays,
}

/// `weather_clock`: the clock of a weather file's dates.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeatherClock {
    /// Coordinated universal time.
    Utc,
    /// Standard time of the place, all year.
    Standard,
}

/// `[house]`.
#[derive(Debug, Clone, PartialEq)]
pub struct HouseSection {
    /// `floor_area` of the whole house, more than 0.
    pub floor_area: Option<Typed<Area>>,
    /// `panel_spare`: current that the electric panel can still carry, 0 or more.
    pub panel_spare: Option<Typed<Current>>,
    /// `repair_days`: whole days until a failed machine is mended, 1 to 30.
    pub repair_days: Option<Typed<f64>>,
    /// `load_source`: where the design loads come from.
    pub load_source: Option<Typed<String>>,
    /// `load_uncertainty`: how far the design loads may be off, as a share, 0 to 0.5.
    pub load_uncertainty: Option<Typed<f64>>,
    /// `[[house.zone]]`, at least one, in the order typed.
    pub zone: Vec<ZoneSection>,
}

/// One `[[house.zone]]`: a part of the house with its own thermostat.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneSection {
    /// `name`: unique among the zones.
    pub name: Typed<String>,
    /// `design_load`: heat loss indoors to outdoors at the design point, gains not deducted; 0 or more.
    pub design_load: Typed<Power>,
    /// `design_temperature` outdoors, below `indoor`.
    pub design_temperature: Typed<Temperature>,
    /// `indoor` temperature of the design point.
    pub indoor: Typed<Temperature>,
    /// `balance_temperature`: warmer outdoors than this, no heat is needed; from
    /// `design_temperature` to `indoor`.
    pub balance_temperature: Typed<Temperature>,
    /// `design_load_includes_ducts`.
    pub design_load_includes_ducts: Typed<bool>,
    /// `duct_efficiency`: share of the heat that reaches the rooms, 0.5 to 1.
    pub duct_efficiency: Option<Typed<f64>>,
    /// `ducts`: what they are like, instead of `duct_efficiency`.
    pub ducts: Option<DuctsSection>,
    /// `heat_capacity` of rooms and contents, 0 or more; 0 asks for the steady line.
    pub heat_capacity: Option<Typed<HeatCapacity>>,
    /// `floor_area` of the zone, more than 0.
    pub floor_area: Option<Typed<Area>>,
    /// `heating_set_point` of the thermostat.
    pub heating_set_point: Option<Typed<Temperature>>,
    /// `set_back`: times with another set point; they do not overlap.
    pub set_back: Vec<SetBackSection>,
    /// `vent`: above this room temperature windows are opened.
    pub vent: Option<Typed<Temperature>>,
    /// The four cooling keys: all of them or none.
    pub cooling: Option<CoolingSection>,
}

/// `ducts` of a zone.
#[derive(Debug, Clone, PartialEq)]
pub struct DuctsSection {
    /// `supply_area`: surface of the supply ducts outside the rooms, more than 0.
    pub supply_area: Typed<Area>,
    /// `return_area`: the same of the return ducts.
    pub return_area: Typed<Area>,
    /// `supply_r`: insulation, the R-value as sold (°F·ft²·h/Btu), 0.5 to 60.
    pub supply_r: Typed<f64>,
    /// `return_r`.
    pub return_r: Typed<f64>,
    /// `airflow` while the machine runs, more than 0.
    pub airflow: Typed<Airflow>,
    /// `supply_leak`: share of the air, 0 to 0.5.
    pub supply_leak: Typed<f64>,
    /// `return_leak`: share of the air, 0 to 0.5.
    pub return_leak: Typed<f64>,
    /// `ambient` around the ducts in the middle of the heating season; outdoors without it.
    pub ambient: Option<Typed<Temperature>>,
}

/// The four cooling keys of a zone.
#[derive(Debug, Clone, PartialEq)]
pub struct CoolingSection {
    /// `cooling_design_load`: sensible, 0 or more.
    pub cooling_design_load: Typed<Power>,
    /// `cooling_design_temperature` outdoors, above `cooling_balance_temperature`.
    pub cooling_design_temperature: Typed<Temperature>,
    /// `cooling_balance_temperature`: colder outdoors than this, no cooling is needed.
    pub cooling_balance_temperature: Typed<Temperature>,
    /// `cooling_set_point` of the thermostat, above the heating set point.
    pub cooling_set_point: Typed<Temperature>,
}

/// One entry of `set_back`.
#[derive(Debug, Clone, PartialEq)]
pub struct SetBackSection {
    /// `from`: wall-clock time at which it begins.
    pub from: Typed<ClockTime>,
    /// `to`: wall-clock time at which it ends; may lie before `from`, then it crosses midnight.
    pub to: Typed<ClockTime>,
    /// `set_point` between the two.
    pub set_point: Typed<Temperature>,
}
