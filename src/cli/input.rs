//! Opens what a command names: the job file, its changes, its weather.
//!
//! Start at [`job`] and [`weather`].

use super::Failure;
use crate::job::edit;
use crate::job::reader;
use crate::job::{Job, MonthlySection, SiteSection, Typed, WeatherSection, problem_at};
use crate::problem::{Problem, Problems};
use crate::report::logo::{self, Logo};
use crate::units::Quantity;
use crate::weather::synthetic::{self, SyntheticInput};
use crate::weather::{self, OutdoorYear, Weather};
use std::borrow::Cow;
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::ops::Range;
use std::path::{Path, PathBuf};

const DEMO: &str = include_str!("../../data/demo.toml");
pub(crate) const DEMO_NAME: &str = "demonstration job";
/// A job file larger than this is none.
const LARGEST_JOB: u64 = 4 << 20;

/// Reads the job at `path`, or the built-in demonstration, with the changes applied.
pub(crate) fn job(path: Option<&Path>, changes: &[String]) -> Result<Job, Failure> {
    let (name, bytes) = match path {
        None => (DEMO_NAME.to_owned(), DEMO.as_bytes().to_vec()),
        Some(path) => (path.display().to_string(), read_file(path)?),
    };
    // Read as it is first, so that its own problems are told with its own lines.
    let job = reader::from_bytes(&name, &bytes)
        .map_err(|problems| with_weather_not_there(problems, &name, String::from_utf8_lossy(&bytes), path))?;
    if changes.is_empty() {
        return Ok(job);
    }
    let mut text = job.text;
    for change in changes {
        text = changed(&text, change)?;
    }
    let name = format!("{name} (with --set)");
    reader::read(&name, text.clone()).map_err(|problems| Failure::Given(problems, Some(text)))
}

/// The problems of a job, and that its weather is not there, so that it is told in the same go.
fn with_weather_not_there(
    mut problems: Problems,
    name: &str,
    text: Cow<'_, str>,
    path: Option<&Path>,
) -> Failure {
    let site = reader::site_of(name, &text);
    problems.extend(site.map(|site| not_there(&site, (name, &text), path)).unwrap_or_default());
    problems.sort_by_key(|problem| problem.line);
    Failure::Given(problems, Some(text.into_owned()))
}

fn changed(text: &str, change: &str) -> Result<String, Failure> {
    let (key, value) = change.split_once('=').ok_or_else(|| {
        Problem::new(format!("--set {change}: there is no '=' between key and value"))
            .help("Write --set site.elevation=\"900 ft\"")
    })?;
    edit::set(text, key.trim(), value.trim())
        .map_err(|problem| Failure::Given(vec![Problem { span: None, line: None, ..problem }], None))
}

fn read_file(path: &Path) -> Result<Vec<u8>, Failure> {
    let unusable = |e: std::io::Error| {
        Problem::new(unreadable(&format!("the job file '{}'", path.display()), &e))
            .help("Name a job file, or leave it out for the built-in demonstration")
    };
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(unusable)?;
    // One byte more than allowed, so that the job reader sees that it is too large.
    file.take(LARGEST_JOB + 1).read_to_end(&mut bytes).map_err(unusable)?;
    Ok(bytes)
}

/// Opens the weather that the job names: built in, or a file beside the job.
pub(crate) fn weather(job: &Job, job_path: Option<&Path>) -> Result<Weather, Failure> {
    let given = |problems| Failure::Given(problems, Some(job.text.clone()));
    let lacking = not_there(&job.site, (&job.file, &job.text), job_path);
    if !lacking.is_empty() {
        return Err(given(lacking));
    }
    match &job.site.weather {
        WeatherSection::BuiltIn(key) => {
            weather::places::open(key).map(|year| Weather::Year(Box::new(year))).map_err(Failure::from)
        }
        WeatherSection::Files(names) => {
            let options = weather::from_job::options(job).map_err(|problem| given(vec![problem]))?;
            let open = |name: &Typed<String>| {
                let path = beside(job_path, name);
                let file = File::open(&path).map_err(|e| unopened(&path, &e))?;
                Ok((path.display().to_string(), file))
            };
            let files = names.iter().map(open).collect::<Result<Vec<_>, Problem>>()?;
            weather::read_many(files, &options).map_err(|found| Failure::Given(found, None))
        }
        WeatherSection::Monthly(monthly) => {
            let placed = |problem: Problem| {
                let own = job.problem(&monthly.heating_99.span, "site.heating_99", problem.what);
                given(vec![Problem { allowed: problem.allowed, help: problem.help, ..own }])
            };
            synthetic(job, monthly).map(|year| Weather::Year(Box::new(year))).map_err(placed)
        }
    }
}

/// What a job's `[site]` names that is not there: a place, or files.
fn not_there(site: &SiteSection, (file, text): (&str, &str), job_path: Option<&Path>) -> Problems {
    let placed = |span: &Range<usize>, key: &str, problem: Problem| {
        let (allowed, help) = (problem.allowed, problem.help);
        Problem { allowed, help, ..problem_at(file, text, span, key, problem.what) }
    };
    match &site.weather {
        WeatherSection::BuiltIn(key) => {
            let found = weather::places::open(key).err();
            found.map(|problem| placed(&key.span, "site.weather", problem)).into_iter().collect()
        }
        WeatherSection::Files(names) => {
            let unopened = |name: &Typed<String>| {
                let path = beside(job_path, name);
                let problem = unopened(&path, &File::open(&path).err()?);
                Some(placed(&name.span, "site.weather_file", problem))
            };
            names.iter().filter_map(unopened).collect()
        }
        WeatherSection::Monthly(_) => Problems::new(),
    }
}

fn unopened(path: &Path, error: &std::io::Error) -> Problem {
    Problem::new(unreadable(&format!("the weather file '{}'", path.display()), error))
        .help("The path counts from the job file's folder")
}

/// Opens the logo that the job names: a file beside the job.
pub(crate) fn logo(job: &Job, job_path: Option<&Path>) -> Result<Option<Logo>, Failure> {
    let Some(name) = &job.job.logo else { return Ok(None) };
    let placed = |problem: Problem| {
        let placed = Problem { help: problem.help, ..job.problem(&name.span, "job.logo", problem.what) };
        Failure::Given(vec![placed], Some(job.text.clone()))
    };
    let path = beside(job_path, name);
    let unusable = |e: std::io::Error| {
        let what = unreadable(&format!("the logo '{}'", path.display()), &e);
        placed(Problem::new(what).help("The path counts from the job file's folder"))
    };
    let mut bytes = Vec::new();
    let file = File::open(&path).map_err(unusable)?;
    file.take(logo::LARGEST + 1).read_to_end(&mut bytes).map_err(unusable)?;
    if bytes.len() as u64 > logo::LARGEST {
        return Err(placed(Problem::new("the logo is larger than 1 MB").help("Save it smaller")));
    }
    Logo::read(bytes).map(Some).map_err(placed)
}

/// Why a file cannot be opened, without the system's number for it.
pub(crate) fn unreadable(file: &str, error: &std::io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => format!("{file} is not there"),
        ErrorKind::PermissionDenied => format!("{file} may not be read by you"),
        ErrorKind::IsADirectory => format!("{file} is a folder"),
        _ => format!("{file} cannot be read: {error}"),
    }
}

fn synthetic(job: &Job, monthly: &MonthlySection) -> Result<OutdoorYear, Problem> {
    synthetic::year(&SyntheticInput {
        place: job.site.name.value.clone(),
        highs_c: monthly.monthly_highs.value.each_ref().map(|t| t.value.base()),
        lows_c: monthly.monthly_lows.value.each_ref().map(|t| t.value.base()),
        means_c: monthly.monthly_means.as_ref().map(|means| means.value.each_ref().map(|t| t.value.base())),
        heating_99_c: monthly.heating_99.base(),
        latitude: None,
        // A zone that does not exist is told where the site is built.
        zone: job.site.time_zone.as_ref().and_then(|name| name.value.parse().ok()),
        seed: monthly.weather_seed.as_deref().copied().unwrap_or(synthetic::SEED),
    })
}

fn beside(job_path: Option<&Path>, name: &str) -> PathBuf {
    job_path.and_then(Path::parent).map_or_else(|| PathBuf::from(name), |folder| folder.join(name))
}
