#!/usr/bin/env bash
# Writes a migration of the same name for both engines, from the model as it stands: bash deploy/dev/add-migration.sh AddCoolantLots
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

name=${1:-}
[[ $name =~ ^[A-Z][A-Za-z0-9]+$ ]] || { echo "usage: add-migration.sh Name   (a word in PascalCase that says what changes)" >&2; exit 2; }

dotnet tool restore --verbosity quiet
for provider in Sqlite Postgres; do
  project=src/ShopFluids.Data.$provider
  dotnet restore "$project" --verbosity quiet
  dotnet ef migrations add "$name" --context ShopFluidsDbContext --project "$project" --startup-project "$project" --output-dir Migrations
done
git status --short src/ShopFluids.Data.Sqlite/Migrations src/ShopFluids.Data.Postgres/Migrations
