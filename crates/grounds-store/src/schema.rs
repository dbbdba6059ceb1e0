//! The tables, and how they are brought up to date.

use std::path::Path;

use sqlx::{Row, SqliteConnection, SqlitePool};

use crate::error::StoreError;

/// The steps that make the tables, the first made from nothing. A step is never changed once it
/// was given out; a change of the tables is one more step.
const STEPS: [&str; 3] = [
    include_str!("schema/1.sql"),
    include_str!("schema/2.sql"),
    include_str!("schema/3.sql"),
];

/// Brings the tables up to date, in one transaction.
pub(crate) async fn bring_up_to_date(pool: &SqlitePool, folder: &Path) -> Result<(), StoreError> {
    let mut change = pool.begin_with("BEGIN IMMEDIATE").await?;
    sqlx::raw_sql("CREATE TABLE IF NOT EXISTS schema_version (version BIGINT NOT NULL)")
        .execute(&mut *change)
        .await?;
    let known = i64::try_from(STEPS.len()).unwrap_or(i64::MAX);
    let found = version(&mut change).await?;
    if found > known {
        return Err(StoreError::Newer {
            folder: folder.to_owned(),
            found,
            known,
        });
    }
    let made = usize::try_from(found).unwrap_or(0);
    for step in STEPS.iter().skip(made) {
        sqlx::raw_sql(*step).execute(&mut *change).await?;
    }
    if found < known {
        sqlx::raw_sql("DELETE FROM schema_version")
            .execute(&mut *change)
            .await?;
        sqlx::query("INSERT INTO schema_version (version) VALUES ($1)")
            .bind(known)
            .execute(&mut *change)
            .await?;
    }
    change.commit().await?;
    Ok(())
}

async fn version(connection: &mut SqliteConnection) -> Result<i64, StoreError> {
    let row = sqlx::query("SELECT version FROM schema_version")
        .fetch_optional(connection)
        .await?;
    Ok(row.map(|row| row.try_get(0)).transpose()?.unwrap_or(0))
}
