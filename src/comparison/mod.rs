//! Runs the pipeline for each option of a job on one weather, side by side.
//!
//! Start at [`compare`].

pub mod slip;
mod row_slip;
mod off_in_cold;
pub mod tenfold;
pub mod proportion;
pub mod oddity;
pub mod efficiency;
pub mod unlikely;
pub mod doubt;
pub mod store_note;
pub mod note;
pub mod heading;
pub mod run_weather;
pub mod site;
pub mod plausible;
mod mismatch;
mod charges;
mod doubtful;
pub mod setting;
pub mod laid;
pub mod store;
pub mod recovery;
mod stocked;
pub mod option;
pub mod ratings;
pub mod labels;
pub mod paid;
mod lockouts;
pub mod life_cycle;
pub mod avoided;
mod given;
pub mod past_use;
mod notes;
pub mod week;
pub mod working;
pub mod rerun;
pub mod winter;
mod ordinary;

pub use avoided::{Air, OptionAir};
pub use given::{Given, GivenWhat};
pub use heading::{Heading, PaperSize};
pub use life_cycle::{LifeCycles, OptionLife, Worth};
pub use note::Note;
pub use option::{OptionResult, ZoneResult};
pub use past_use::{PastBill, PastUse};
pub use ratings::MachineRatings;
pub use recovery::{Warmth, WithoutSetBacks};
pub use rerun::{Billing, Outcome, Rerun, Reruns};
pub use run_weather::RunWeather;
pub use site::Site;
pub use store::{OrdinaryTerms, StoreResult};

use crate::calendar::MonthDay;
use crate::coldnight::{self, Basis};
use crate::economics::{self, Economics};
use crate::emissions::{self, Grid};
use crate::equipment::ground::Surface;
use crate::equipment::{self, Machine};
use crate::fuel::Fuels;
use crate::job::{Job, WeatherSection};
use crate::load::{self, Mains, Zone};
use crate::prices::{self, Prices};
use crate::problem::{Problem, Problems};
use crate::simulation::design::OptionDesign;
use crate::simulation::from_job::{Surroundings, designs};
use crate::simulation::frost::FrostShares;
use crate::sources::{Assumptions, Source};
use crate::supply::{self, Supplies};
use crate::units::UnitSystem;
use crate::weather::extremes::Winters;
use crate::weather::statistics::bins_5_fahrenheit;
use crate::weather::{BinTable, Weather, quality, synthetic};
use option::{bins_cost, through_bins, through_year, year_cost};
use run_weather::Chosen;
use setting::Setting;

/// Every option of a job, computed on the same weather and prices.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// The house's title.
    pub title: String,
    /// What the job says of itself.
    pub about: Option<String>,
    /// Who prepared it.
    pub prepared_by: Option<String>,
    /// What else stands at the head of a printed sheet.
    pub heading: Heading,
    /// The currency's sign.
    pub currency: String,
    /// The units people read.
    pub units: UnitSystem,
    /// SHA-256 of the job's text.
    pub job_sha256: String,
    /// The place.
    pub site: Site,
    /// The weather it was run on.
    pub weather: RunWeather,
    /// The same by bins, warm to cold.
    pub bins: BinTable,
    /// How often frost is melted in each of them.
    pub frost: FrostShares,
    /// The winters of the record that the weather is out of.
    pub winters: Option<Winters>,
    /// The fuels.
    pub fuels: Fuels,
    /// The zones.
    pub zones: Vec<Zone>,
    /// How far their design loads may be off, as a share.
    pub load_uncertainty: f64,
    /// The machines.
    pub machines: Vec<Machine>,
    /// The prices.
    pub prices: Prices,
    /// The stores of delivered fuels.
    pub supplies: Supplies,
    /// What the job says of panel, repair and airflow.
    pub basis: Basis,
    /// The options, in the job's order.
    pub options: Vec<OptionResult>,
    /// What they cost over the years; nothing where the job gives no cost of installing.
    pub life_cycles: Option<LifeCycles>,
    /// What they send into the air.
    pub air: Air,
    /// Who gave each price and cost.
    pub given: Vec<Given>,
    /// Every default that was used.
    pub assumptions: Assumptions,
    /// What the machines' own figures would be rated at.
    pub ratings: Vec<MachineRatings>,
    /// Bills of the past beside what is calculated for their days, where the job has some.
    pub past_use: Option<PastUse>,
    /// What a reader must know beside the figures.
    pub notes: Vec<Note>,
}

impl Comparison {
    /// What its options share, for another run of them.
    pub fn setting(&self) -> Setting<'_> {
        Setting {
            zones: &self.zones,
            machines: &self.machines,
            prices: &self.prices,
            supplies: &self.supplies,
            fuels: &self.fuels,
            bins: &self.bins.bins,
            frost: self.frost,
            extreme_low_c: self.site.extreme_low_c,
            elevation_m: self.site.elevation_m,
            basis: &self.basis,
            maps: None,
        }
    }
}

/// The job's parts as domain values.
struct Parts {
    site: Site,
    winters: Option<Winters>,
    fuels: Fuels,
    zones: Vec<Zone>,
    load_uncertainty: f64,
    machines: Vec<Machine>,
    prices: Prices,
    supplies: Supplies,
    designs: Vec<OptionDesign>,
    basis: Basis,
    economics: Option<Economics>,
    past_use: Option<PastUse>,
    ratings: Vec<MachineRatings>,
    grid: Grid,
    assumptions: Assumptions,
}

impl Parts {
    fn setting<'a>(&'a self, bins: &'a BinTable, frost: FrostShares) -> Setting<'a> {
        Setting {
            zones: &self.zones,
            machines: &self.machines,
            prices: &self.prices,
            supplies: &self.supplies,
            fuels: &self.fuels,
            bins: &bins.bins,
            frost,
            extreme_low_c: self.site.extreme_low_c,
            elevation_m: self.site.elevation_m,
            basis: &self.basis,
            maps: None,
        }
    }
}

/// Compares every option of `job` on `weather`.
///
/// # Errors
/// Everything in the job that does not fit together, with its place.
pub fn compare(job: &Job, weather: &Weather) -> Result<Comparison, Problems> {
    compared(job, weather, true)
}

/// The same without what is told beside each option and takes further years of hours: the cost at the ends
/// of what nameplates leave open, lock-outs that would cost less, and the year without set-backs, so that
/// an option that is only slow to recover counts as one that goes cold.
///
/// # Errors
/// As [`compare`].
pub fn compare_alone(job: &Job, weather: &Weather) -> Result<Comparison, Problems> {
    compared(job, weather, false)
}

fn compared(job: &Job, all_weather: &Weather, with_more_years: bool) -> Result<Comparison, Problems> {
    let (weather, mut parts, weather_notes) = chosen(job, all_weather)?;
    if with_more_years {
        let beside = past_use::Beside {
            fuels: &parts.fuels,
            zones: &parts.zones,
            time_zone: parts.site.zone,
            weather: all_weather,
            run: &weather,
        };
        parts.past_use = past_use::past_use(job, &beside, &mut parts.assumptions)?;
    }
    let bins = match &weather {
        RunWeather::Year(year) => bins_5_fahrenheit(&year.place, &year.columns.dry_bulb_c),
        RunWeather::Bins(bins) => bins.clone(),
    };
    let frost = frost_shares(&weather);
    let setting = parts.setting(&bins, frost);
    let mut options: Vec<OptionResult> = Vec::new();
    let mut lockout_notes = Vec::new();
    match &weather {
        RunWeather::Year(year) => {
            let run = year.run(parts.site.zone);
            options.extend(parts.designs.iter().map(|d| through_year(d, &setting, &run, with_more_years)));
            if with_more_years {
                labels::cost_ranges(job, &setting, &mut options, |d, s| year_cost(d, s, &run));
                for option in &mut options {
                    let own_cost = option.yearly_cost();
                    option.ordinary = ordinary::best_ordinary(&option.design, &setting, &run, own_cost);
                }
                lockout_notes = lockouts::better_lockouts(&options, &setting, &run);
            }
        }
        RunWeather::Bins(_) => {
            needs_flat_prices(job, &parts)?;
            options.extend(parts.designs.iter().map(|d| through_bins(d, &setting)));
            labels::cost_ranges(job, &setting, &mut options, bins_cost);
        }
    }
    let mut comparison = assemble(job, weather, (bins, frost), parts, options);
    comparison.notes.splice(0..0, lockout_notes.into_iter().map(Note::BetterLockout).chain(weather_notes));
    Ok(comparison)
}

/// How often frost is melted, by the dew points of the hours where the weather has them.
fn frost_shares(weather: &RunWeather) -> FrostShares {
    let RunWeather::Year(year) = weather else { return FrostShares::default() };
    let dew = year.columns.dew_point_c.as_ref();
    dew.map_or_else(FrostShares::default, |dew| FrostShares::of(&year.columns.dry_bulb_c, dew))
}

/// The weather that is run on, if enough of it is there, and the job's parts on it.
fn chosen(job: &Job, weather: &Weather) -> Result<(RunWeather, Parts, Vec<Note>), Problems> {
    let Chosen { weather, winters, notes } =
        run_weather::run_weather(job, weather).map_err(|problem| vec![problem])?;
    if let RunWeather::Year(year) = &weather
        && let Some(problem) = quality::too_much_missing(year)
    {
        return Err(vec![run_weather::too_much_missing(job, problem, &[])]);
    }
    let parts = parts(job, &weather, winters)?;
    Ok((weather, parts, notes))
}

fn assemble(
    job: &Job,
    weather: RunWeather,
    (bins, frost): (BinTable, FrostShares),
    parts: Parts,
    options: Vec<OptionResult>,
) -> Comparison {
    let life_cycles = parts.economics.as_ref().map(|e| life_cycle::life_cycles(e, &options, &parts.fuels));
    let air = avoided::air(parts.grid.clone(), &options, &parts.fuels, life_cycles.as_ref());
    let text = |t: &Option<crate::job::Typed<String>>| t.as_ref().map(|t| t.value.clone());
    Comparison {
        title: job.job.title.value.clone(),
        about: text(&job.job.note),
        prepared_by: text(&job.job.prepared_by),
        heading: Heading::of(job),
        currency: job.job.currency.value.clone(),
        units: job.job.units.system(),
        job_sha256: job.sha256.clone(),
        notes: notes::notes(job, &parts, &weather, &options),
        ratings: parts.ratings,
        site: parts.site,
        winters: parts.winters,
        weather,
        bins,
        frost,
        zones: parts.zones,
        load_uncertainty: parts.load_uncertainty,
        machines: parts.machines,
        prices: parts.prices,
        supplies: parts.supplies,
        basis: parts.basis,
        life_cycles,
        air,
        past_use: parts.past_use,
        given: given::given(job, &parts.fuels),
        fuels: parts.fuels,
        options,
        assumptions: parts.assumptions,
    }
}

fn parts(job: &Job, weather: &RunWeather, winters: Option<Winters>) -> Result<Parts, Problems> {
    let mut assumptions = Assumptions::default();
    as_written_here(job, &mut assumptions);
    let fuels = Fuels::built_in().map_err(|p| vec![p])?.sold_in(job.job.units.system());
    if let WeatherSection::Monthly(monthly) = &job.site.weather
        && monthly.weather_seed.is_none()
    {
        let source = Source::Derived("the first seed; another gives other days of the same months".into());
        assumptions.note("site.weather_seed", synthetic::SEED.to_string(), source);
    }
    let mut problems = Vec::new();
    let site = keep(site::site(job, weather, winters.as_ref(), &mut assumptions).map(Some), &mut problems);
    let elevation_m = site.as_ref().and_then(|site| site.elevation_m);
    let place = equipment::from_job::Surroundings { elevation_m, surface: surface(weather) };
    let machines = equipment::from_job::machines(job, &fuels, place, &mut assumptions);
    let machines = keep(machines, &mut problems);
    let household = equipment::from_job::household_machines(job, &fuels, &mut assumptions);
    let household = keep(household, &mut problems);
    let ducted = |zone: &str| serves_through_ducts(job, zone, &machines);
    let zones = keep(load::from_job::zones(job, ducted, elevation_m, &mut assumptions), &mut problems);
    let load_uncertainty = load::from_job::uncertainty(job, &mut assumptions);
    let prices = keep(prices::from_job::prices(job, &fuels, &mut assumptions), &mut problems);
    let stores = keep(supply::from_job::stores(job, &fuels, &mut assumptions), &mut problems);
    let Some(site) = site.filter(|_| problems.is_empty()) else {
        problems.sort_by_key(|problem| problem.line);
        return Err(problems);
    };
    let worth = |fuel| laid::of_heat(&prices, fuel).map_or(0.0, |p| p.mean_marginal());
    let surroundings = Surroundings { household: &household, mains: mains(weather), worth: &worth };
    let designs = designs(job, &zones, &machines, &surroundings, &mut assumptions)?;
    missing_prices(job, &prices, &machines, &designs, &fuels)?;
    let supplies = supply::from_job::supplies(job, stores, &designs, &machines)?;
    let basis =
        coldnight::from_job::basis(job, &zones, &machines, &designs, midwinter(weather), &mut assumptions);
    let economics = economics::from_job::economics(job, &fuels, &mut assumptions)?;
    let grid = emissions::from_job::grid(job, &mut assumptions)?;
    let ratings = ratings::ratings(job, &machines);
    Ok(Parts {
        site,
        winters,
        fuels,
        zones,
        load_uncertainty,
        machines,
        prices,
        supplies,
        designs,
        basis,
        economics,
        past_use: None,
        ratings,
        grid,
        assumptions,
    })
}

/// Currency and units are defaults too where the job does not say.
fn as_written_here(job: &Job, assumptions: &mut Assumptions) {
    let unsaid = [("job.currency", &job.job.currency.span, "$"), ("job.units", &job.job.units.span, "us")];
    for (key, _, value) in unsaid.into_iter().filter(|(_, span, _)| span.is_empty()) {
        assumptions.note(key, value, Source::CommonPractice("what people in the United States write".into()));
    }
}

/// The wave of the ground's surface, from the air's monthly means; bins have no months.
fn surface(weather: &RunWeather) -> Option<Surface> {
    let RunWeather::Year(year) = weather else { return None };
    let means: Vec<f64> = year.monthly_means().into_iter().collect::<Option<_>>()?;
    Some(Surface::of_monthly_means(&means.try_into().ok()?))
}

/// A day in the middle of the winter: of the southern half of the earth where the weather says that it lies there.
fn midwinter(weather: &RunWeather) -> MonthDay {
    let southern =
        matches!(weather, RunWeather::Year(year) if year.latitude.is_some_and(|north| north < 0.0));
    MonthDay { month: if southern { 7 } else { 1 }, day: 15 }
}

/// How cold the water comes in where the weather is this; bins know no seasons.
fn mains(weather: &RunWeather) -> Mains {
    let (yearly_mean_c, monthly_range_k) = match weather {
        RunWeather::Year(year) => year.mean_and_monthly_range(),
        RunWeather::Bins(bins) => (bins.mean_c(), 0.0),
    };
    Mains::Seasonal { yearly_mean_c, monthly_range_k }
}

/// Keeps what was built and collects what went wrong, so that all is told at once.
fn keep<T: Default>(built: Result<T, Problems>, problems: &mut Problems) -> T {
    built.unwrap_or_else(|found| {
        problems.extend(found);
        T::default()
    })
}

fn serves_through_ducts(job: &Job, zone: &str, machines: &[Machine]) -> bool {
    let sections = job.options.iter().flat_map(|o| &o.zone).filter(|z| z.zone.value == zone);
    let mut names = sections.flat_map(|z| z.heating.value.iter().chain(&z.cooling));
    names.any(|name| machines.iter().any(|m| m.ducted && m.name == name.value))
}

/// Electricity is always needed; every fuel that some option's machine burns needs a price too.
fn missing_prices(
    job: &Job,
    prices: &Prices,
    machines: &[Machine],
    designs: &[OptionDesign],
    fuels: &Fuels,
) -> Result<(), Problems> {
    let used: Vec<_> = designs.iter().flat_map(|d| d.fuels(machines)).collect();
    let missing = fuels.iter().filter(|(id, _)| {
        prices.of(*id).is_none() && (*id == crate::fuel::FuelId::ELECTRICITY || used.contains(id))
    });
    let problems: Problems = missing
        .map(|(_, fuel)| {
            let key = format!("prices.{}", fuel.id);
            let example = format!("Add [prices.{}] with price = \"... $/{}\"", fuel.id, fuel.selling_unit);
            Problem::new(format!("no price for {}", fuel.name)).in_file(&job.file).at_key(key).help(example)
        })
        .collect();
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

/// Bins have no hours and no months, so a price that depends on them has no meaning there.
fn needs_flat_prices(job: &Job, parts: &Parts) -> Result<(), Problems> {
    let moving = parts.prices.0.iter().filter(|p| p.one_price().is_none());
    let problems: Problems = moving
        .filter_map(|p| parts.fuels.get(p.fuel))
        .map(|fuel| {
            let what =
                format!("the price of {} moves through the year, but bin weather has no months", fuel.name);
            let typed = job.prices.fuels.iter().find(|(id, _)| id.value == fuel.id);
            let place = typed.map_or(0..0, |(id, _)| id.span.clone());
            job.problem(&place, format!("prices.{}", fuel.id), what)
                .help("Give one flat price, or an hourly weather file")
        })
        .collect();
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}
