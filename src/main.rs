//! The program: hands its arguments to the library's command line and returns its exit code.

fn main() -> std::process::ExitCode {
    winterledger::cli::run()
}
