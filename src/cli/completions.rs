//! `completions` and `schema`: texts that shells, editors and other programs read.
//!
//! Start at [`completions`] and [`schema`].

use super::arguments::{Arguments, Completions, Schema, SchemaOf};
use super::{Failure, output};
use crate::problem::Problem;
use clap::CommandFactory;

/// Prints the completions of a shell.
pub(crate) fn completions(arguments: &Completions) -> Result<(), Failure> {
    // Made in memory first: written straight to a closed pipe, it would end in a panic.
    let mut bytes = Vec::new();
    clap_complete::generate(arguments.shell, &mut Arguments::command(), "winterledger", &mut bytes);
    output::result(&String::from_utf8_lossy(&bytes))
}

/// Prints a schema.
pub(crate) fn schema(arguments: &Schema) -> Result<(), Failure> {
    let text = match arguments.of {
        SchemaOf::Job => crate::job::schema::text(),
        SchemaOf::Comparison => crate::report::json::schema(),
    };
    output::result(
        &text.map_err(|e| Failure::Ours(Problem::new(format!("the schema cannot be written: {e}"))))?,
    )
}
