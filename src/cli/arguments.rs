//! What may be typed after the program's name.
//!
//! Start at [`Arguments`].

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// What each way of heating one house costs in a year, and whether it carries the coldest night.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 100, after_help = AFTER_HELP)]
pub(crate) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
}

const AFTER_HELP: &str = "An estimate, not a quote, nor the load calculation a permit needs: local codes and a \
                          licensed contractor decide.";

/// The commands.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Writes a job to begin with: invented values, every key explained
    Start(Start),
    /// Reads a job and tells its problems, or everything it takes for granted
    Check(Check),
    /// Runs every option of a job through a weather year and shows them side by side
    Compare(Compare),
    /// Tries several machines in one place of an option, side by side
    Sizes(Sizes),
    /// Tries every compressor lock-out of a heat pump with a furnace: what each costs in a year
    Changeover(Changeover),
    /// Runs the job's scenarios, or dearer prices where it names none: what each option costs then
    Scenarios(Scenarios),
    /// Draws many winters by chance: what each option then costs, how often its tank runs dry, on which
    /// terms, and which tank keeps within a risk
    Winters(Scenarios),
    /// Fits a model to prices of past winters: season, volatility, spikes, the winter that could follow
    History(History),
    /// Finds the price at which two options cost the same a year, and maps two prices at once
    Tipping(Tipping),
    /// Moves each input to a low and a high value: what that does to the difference between two options
    Sway(Sway),
    /// Writes one hour, or one outdoor temperature, of an option out as arithmetic
    Working(Working),
    /// Sums up a weather year: how cold, how long, how often
    Weather(Weather),
    /// Prints the JSON Schema of a job or of a comparison, for editors and other programs
    Schema(Schema),
    /// Prints what a shell needs to complete commands and options
    Completions(Completions),
}

/// What `start` takes.
#[derive(Debug, Args)]
pub(crate) struct Start {
    /// The file to write; it must not exist yet. Without one, the job is printed
    pub(crate) file: Option<PathBuf>,
}

/// What `check` takes.
#[derive(Debug, Args)]
pub(crate) struct Check {
    /// The job file; without one, the built-in demonstration (an invented house)
    pub(crate) job: Option<PathBuf>,

    /// Change one value of the job for this run, as often as needed
    #[arg(long = "set", value_name = "KEY=VALUE")]
    pub(crate) changes: Vec<String>,

    /// Print problems, or what is taken for granted, as JSON instead
    #[arg(long)]
    pub(crate) json: bool,
}

/// What `compare` takes.
#[derive(Debug, Args)]
pub(crate) struct Compare {
    /// The job file; without one, the built-in demonstration (an invented house)
    pub(crate) job: Option<PathBuf>,

    /// Change one value of the job for this run, as often as needed:
    /// --set prices.propane.price_by_month.jan="5.38 $/gal"
    #[arg(long = "set", value_name = "KEY=VALUE")]
    pub(crate) changes: Vec<String>,

    /// Print the whole comparison as JSON instead
    #[arg(long)]
    pub(crate) json: bool,

    /// Also write the sheet that goes home (PDF, HTML), tables (CSV), a spreadsheet (XLSX), charts (SVG, PNG) and
    /// JSON into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// Which zone of which option of which job.
#[derive(Debug, Args)]
pub(crate) struct Place {
    /// The job file; without one, the built-in demonstration (an invented house)
    pub(crate) job: Option<PathBuf>,

    /// Change one value of the job for this run, as often as needed
    #[arg(long = "set", value_name = "KEY=VALUE")]
    pub(crate) changes: Vec<String>,

    /// The option's name; needed where more than one fits
    #[arg(long)]
    pub(crate) option: Option<String>,

    /// The zone's name; without one, the house's first
    #[arg(long)]
    pub(crate) zone: Option<String>,
}

/// What `sizes` takes.
#[derive(Debug, Args)]
pub(crate) struct Sizes {
    #[command(flatten)]
    pub(crate) place: Place,

    /// A machine of the job to try as the zone's first; as often as needed. Without any, every
    /// heat pump of the job
    #[arg(long = "machine", value_name = "NAME")]
    pub(crate) machines: Vec<String>,

    /// Also write the table (CSV) and its chart (SVG, PNG) into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// What `changeover` takes.
#[derive(Debug, Args)]
pub(crate) struct Changeover {
    #[command(flatten)]
    pub(crate) place: Place,

    /// Also write the table (CSV) and its chart (SVG, PNG) into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// What `scenarios` and `winters` take.
#[derive(Debug, Args)]
pub(crate) struct Scenarios {
    /// The job file; without one, the built-in demonstration (an invented house)
    pub(crate) job: Option<PathBuf>,

    /// Change one value of the job for this run, as often as needed
    #[arg(long = "set", value_name = "KEY=VALUE")]
    pub(crate) changes: Vec<String>,

    /// Print the result as JSON instead
    #[arg(long)]
    pub(crate) json: bool,

    /// Also write tables (CSV) and JSON into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// What `history` takes.
#[derive(Debug, Args)]
pub(crate) struct History {
    /// Prices as CSV with the columns date and $/gal; without one, the built-in demonstration (invented)
    pub(crate) file: Option<PathBuf>,

    /// Years in which half of a departure is gone, at the least [default: 0.5]
    #[arg(long, value_name = "YEARS")]
    pub(crate) half_life_from: Option<f64>,

    /// The same at the most [default: 5]
    #[arg(long, value_name = "YEARS")]
    pub(crate) half_life_to: Option<f64>,

    /// Weeks in which half of a spike is gone [default: 4]
    #[arg(long, value_name = "WEEKS")]
    pub(crate) spike_half_life: Option<f64>,

    /// Share by which prices in general rose each year, to be taken out, such as 0.025
    #[arg(long, value_name = "SHARE", allow_hyphen_values = true)]
    pub(crate) inflation: Option<f64>,

    /// Price from April to September, in the unit of the file, for the lines for the job; no such history has it
    #[arg(long, value_name = "PRICE")]
    pub(crate) summer: Option<f64>,

    /// Which of many equally good rows of chance
    #[arg(long, default_value_t = 1)]
    pub(crate) seed: u64,

    /// The fuel in the lines for the job
    #[arg(long, default_value = "propane")]
    pub(crate) fuel: String,

    /// Print the result as JSON instead
    #[arg(long)]
    pub(crate) json: bool,

    /// Also write tables (CSV), the chart (SVG, PNG), JSON and lines for the job into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// What `tipping` takes.
#[derive(Debug, Args)]
pub(crate) struct Tipping {
    /// The job file; without one, the built-in demonstration (an invented house)
    pub(crate) job: Option<PathBuf>,

    /// Change one value of the job for this run, as often as needed
    #[arg(long = "set", value_name = "KEY=VALUE")]
    pub(crate) changes: Vec<String>,

    /// The first option; without one, the option that costs least of those that keep warm
    #[arg(long, value_name = "NAME")]
    pub(crate) option: Option<String>,

    /// The second; without one, the next that burns another amount of some fuel
    #[arg(long, value_name = "NAME")]
    pub(crate) against: Option<String>,

    /// The fuel whose price is asked, as the job writes it; without one, the fuel on which the two differ
    /// most. Electricity is looked at beside it
    #[arg(long, value_name = "FUEL")]
    pub(crate) fuel: Option<String>,

    /// Print the result as JSON instead
    #[arg(long)]
    pub(crate) json: bool,

    /// Also write tables (CSV), the map of two prices (SVG, PNG), PDF and JSON into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// What `sway` takes.
#[derive(Debug, Args)]
pub(crate) struct Sway {
    /// The job file; without one, the built-in demonstration (an invented house)
    pub(crate) job: Option<PathBuf>,

    /// Change one value of the job for this run, as often as needed
    #[arg(long = "set", value_name = "KEY=VALUE")]
    pub(crate) changes: Vec<String>,

    /// The first option; without one, the option that costs least of those that keep warm
    #[arg(long, value_name = "NAME")]
    pub(crate) option: Option<String>,

    /// The second; without one, the next that burns another amount of some fuel
    #[arg(long, value_name = "NAME")]
    pub(crate) against: Option<String>,

    /// Print the result as JSON instead
    #[arg(long)]
    pub(crate) json: bool,

    /// Also write the table (CSV), a chart (SVG, PNG), PDF and JSON into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// What `working` takes.
#[derive(Debug, Args)]
#[command(group = clap::ArgGroup::new("moment").required(true))]
pub(crate) struct Working {
    #[command(flatten)]
    pub(crate) place: Place,

    /// An hour by the clock on the wall: month-day and hour, for example "01-24 06"
    #[arg(long, value_name = "MM-DD HH", group = "moment")]
    pub(crate) at: Option<String>,

    /// A steady hour at this outdoor temperature, for example "17 degF"
    #[arg(long, value_name = "TEMPERATURE", group = "moment", allow_hyphen_values = true)]
    pub(crate) outdoor: Option<String>,
}

/// What `weather` takes.
#[derive(Debug, Args)]
pub(crate) struct Weather {
    /// Built-in places or weather files, side by side; without any, the built-in places are listed
    #[arg(value_name = "PLACE-OR-FILE")]
    pub(crate) sources: Vec<String>,

    /// The clock people live by there, such as America/Chicago: files in UTC are put into its standard
    /// time where they do not say their own
    #[arg(long, value_name = "NAME")]
    pub(crate) time_zone: Option<String>,

    /// Take all the files as one record of one place, such as a year each
    #[arg(long, requires = "sources")]
    pub(crate) as_one: bool,

    /// What fills hours without a temperature
    #[arg(long, value_enum, default_value = "line")]
    pub(crate) gaps: Gaps,

    /// The clock of dates that do not say it themselves
    #[arg(long, value_enum)]
    pub(crate) clock: Option<Clock>,

    /// The layout of the files; without it, their content tells
    #[arg(long, value_enum)]
    pub(crate) format: Option<Format>,

    /// The units to print
    #[arg(long, value_enum, default_value = "us")]
    pub(crate) units: PrintedUnits,

    /// Also write tables (CSV) and a chart of each place (SVG, PNG) into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// What fills gaps, by the names of site.weather_gaps.
#[derive(Debug, Clone, Copy, ValueEnum)]
#[value(rename_all = "snake_case")]
pub(crate) enum Gaps {
    /// A straight line, up to six hours; longer gaps are refused
    Line,
    /// The same, and in longer gaps the same hour of the neighbouring days
    NeighbouringDays,
}

/// The clock of dates, by the names of site.weather_clock.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum Clock {
    /// Coordinated universal time
    Utc,
    /// Standard time of the place, all year
    Standard,
}

/// Layouts, by the names of site.weather_format.
#[derive(Debug, Clone, Copy, ValueEnum)]
#[value(rename_all = "snake_case")]
pub(crate) enum Format {
    Tmy3,
    Tmy2,
    Epw,
    IsdLite,
    Nsrdb,
    Pvgis,
    /// CSV with a row an hour
    PlainCsv,
    /// CSV with a date in each row
    DatedCsv,
    /// Hours by temperature
    Bins,
}

/// The units that `weather` prints.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum PrintedUnits {
    /// °F
    Us,
    /// °C
    Si,
}

/// What `schema` takes.
#[derive(Debug, Args)]
pub(crate) struct Schema {
    /// Of what
    #[arg(value_enum)]
    pub(crate) of: SchemaOf,
}

/// The two schemas.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum SchemaOf {
    /// A job file
    Job,
    /// What `compare --json` prints
    Comparison,
}

/// What `completions` takes.
#[derive(Debug, Args)]
pub(crate) struct Completions {
    /// The shell
    #[arg(value_enum)]
    pub(crate) shell: clap_complete::Shell,
}
