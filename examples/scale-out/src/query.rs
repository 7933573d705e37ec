//! Questions in SQL about candidates in Parquet files, with the memory of the engine bounded.

use crate::function::Cordial;
use crate::question::Question;
use crate::terminal::say;
use datafusion::arrow::datatypes::{Fields, Schema};
use datafusion::arrow::util::pretty::pretty_format_batches_with_schema;
use datafusion::error::Result;
use datafusion::execution::memory_pool::FairSpillPool;
use datafusion::execution::runtime_env::RuntimeEnvBuilder;
use datafusion::logical_expr::ScalarUDF;
use datafusion::prelude::{ParquetReadOptions, SessionConfig, SessionContext};
use futures::StreamExt;
use std::{error::Error, fs, path::Path, sync::Arc, time::Instant};

/// More rows than this are for a file, not for a screen: `COPY (...) TO 'folder'`.
const MOST_SHOWN: usize = 1000;

/// What may be used.
pub struct Means {
    pub megabytes: u64,
    pub threads: u64,
}

/// Asks about the candidates of a folder and prints the answers.
pub fn run(asked: Question, folder: &str, means: Means, least: Option<&str>, queries: &[&str]) -> Result<(), Box<dyn Error>> {
    let bytes = held(folder)?;
    let threads = usize::try_from(means.threads)?;
    let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(threads).build()?;
    runtime.block_on(async {
        let engine = engine(&means)?;
        engine.register_parquet("candidates", folder, ParquetReadOptions::default()).await?;
        let schema = Arc::clone(engine.table("candidates").await?.schema().inner());
        let function = Cordial::new(asked)?;
        let settings = settings(&schema);
        let least = least.or(settings.first().copied()).ok_or("the files have no column but `candidate`")?.to_owned();
        if !settings.contains(&least.as_str()) {
            return Err(format!("--least: `{least}` is no column of the files: there are {}", settings.join(", ")).into());
        }
        let usual = usual(&least, &settings, function.found());
        judged(&engine, function, &schema).await?;
        let count = engine.table("candidates").await?.count().await?;
        say!("{count} candidates, {:.0} MB in Parquet files; {} MB for the engine, {threads} threads", bytes as f64 / 1e6, means.megabytes);
        let usual: Vec<&str> = usual.iter().map(String::as_str).collect();
        for query in if queries.is_empty() { usual.as_slice() } else { queries } {
            say!("\n{query}");
            let started = Instant::now();
            say!("{}", answer(&engine, query).await?);
            let seconds = started.elapsed().as_secs_f64();
            say!("{seconds:.1} s, {:.0} candidates a second{}", count as f64 / seconds, peak());
        }
        Ok(())
    })
}

/// An engine that holds no more than it may, and puts the rest into the system's folder for temporary files.
fn engine(means: &Means) -> Result<SessionContext, Box<dyn Error>> {
    let bytes = usize::try_from(means.megabytes.saturating_mul(1_000_000))?;
    let runtime = RuntimeEnvBuilder::new().with_memory_pool(Arc::new(FairSpillPool::new(bytes)));
    // A sort keeps some of its memory for merging what it spilled: no more than it may have.
    let config = SessionConfig::new().with_target_partitions(usize::try_from(means.threads)?);
    let config = config.with_sort_spill_reservation_bytes((bytes / 16).min(10 << 20));
    Ok(SessionContext::new_with_config_rt(config, runtime.build_arc()?))
}

/// Registers the function, and `judged`: the candidates beside what was found of them.
pub async fn judged(engine: &SessionContext, function: Cordial, schema: &Schema) -> Result<()> {
    let text = |name: &str| format!("'{}'", name.replace('\'', "''"));
    let settings: Vec<String> = settings(schema).into_iter().map(|name| format!("{}, {}", text(name), quoted(name))).collect();
    let found: Vec<String> =
        function.found().iter().map(|field| format!("found[{}] AS {}", text(field.name()), quoted(field.name()))).collect();
    engine.register_udf(ScalarUDF::new_from_impl(function));
    let all: Vec<String> = schema.fields().iter().map(|field| quoted(field.name())).collect();
    let (all, settings, found) = (all.join(", "), settings.join(", "), found.join(", "));
    let view =
        format!("CREATE VIEW judged AS SELECT {all}, {found} FROM (SELECT *, cordial(named_struct({settings})) AS found FROM candidates)");
    engine.sql(&view).await?;
    Ok(())
}

/// A name as SQL writes it where it is no plain word.
fn quoted(name: &str) -> String {
    format!("\"{}\"", name.replace('"', "\"\""))
}

/// The columns that hold settings: all but the number of the candidate.
fn settings(schema: &Schema) -> Vec<&str> {
    schema.fields().iter().map(|field| field.name().as_str()).filter(|name| *name != "candidate").collect()
}

/// What is asked where nothing is said: which rules stop how many, and the dozen that pass with the least of something.
fn usual(least: &str, settings: &[&str], found: &Fields) -> [String; 2] {
    let verdicts =
        "SELECT verdict, worst, unknown, count(*) AS candidates FROM judged GROUP BY verdict, worst, unknown ORDER BY candidates DESC";
    let settings = settings.iter().map(|name| format!("round({0}, 3) AS {0}", quoted(name)));
    let estimates = found.iter().skip(4).map(|field| {
        let (name, first) = (quoted(field.name()), if field.name().starts_with("margin") { "margin" } else { "value" });
        format!("round({name}['{first}'], 3) AS {name}")
    });
    let shown = settings.chain(estimates).collect::<Vec<_>>().join(", ");
    let least = quoted(least);
    let best = format!("SELECT candidate, {shown} FROM (SELECT * FROM judged WHERE passes ORDER BY {least} LIMIT 12)");
    [verdicts.to_owned(), best]
}

/// The answer as a table; rows are taken as they come and never all held.
async fn answer(engine: &SessionContext, query: &str) -> Result<String, Box<dyn Error>> {
    let mut stream = engine.sql(query).await?.execute_stream().await?;
    let (schema, mut shown, mut room) = (stream.schema(), Vec::new(), MOST_SHOWN);
    while let Some(batch) = stream.next().await.transpose()? {
        shown.push(batch.slice(0, batch.num_rows().min(room)));
        if batch.num_rows() > room {
            return Ok(format!("{}\nand more", pretty_format_batches_with_schema(schema, &shown)?));
        }
        room -= batch.num_rows();
    }
    Ok(pretty_format_batches_with_schema(schema, &shown)?.to_string())
}

/// How many bytes of Parquet a folder holds.
fn held(folder: &str) -> Result<u64, Box<dyn Error>> {
    let mut bytes = 0;
    for entry in fs::read_dir(folder).map_err(|error| format!("{folder}: {error}"))? {
        let path = entry?.path();
        if path.extension().is_some_and(|extension| extension == "parquet") {
            bytes += fs::metadata(&path)?.len();
        }
    }
    if bytes == 0 { Err(format!("{folder}: no Parquet file in it").into()) } else { Ok(bytes) }
}

/// The most memory that this process ever held, where the system tells it.
pub fn peak() -> String {
    let status = fs::read_to_string(Path::new("/proc/self/status")).unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")?.trim().strip_suffix(" kB")?.trim().parse::<f64>().ok());
    line.map_or_else(String::new, |kibibytes| format!(", {:.0} MB of memory at most", kibibytes * 1024.0 / 1e6))
}
