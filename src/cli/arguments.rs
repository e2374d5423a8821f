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

    /// Also write tables (CSV), charts (SVG, PNG) and JSON into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// What `weather` takes.
#[derive(Debug, Args)]
pub(crate) struct Weather {
    /// Built-in places or weather files, side by side; without any, the built-in places are listed
    #[arg(value_name = "PLACE-OR-FILE")]
    pub(crate) sources: Vec<String>,

    /// The units to print
    #[arg(long, value_enum, default_value = "us")]
    pub(crate) units: PrintedUnits,

    /// Also write tables (CSV) and a chart of each place (SVG, PNG) into this folder
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
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
