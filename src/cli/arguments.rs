//! What may be typed after the program's name.
//!
//! Start at [`Arguments`].

use clap::{Args, Parser, Subcommand};
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
    /// Runs every option of a job through a weather year and shows them side by side
    Compare(Compare),
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
