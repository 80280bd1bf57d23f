#!/usr/bin/env bash
# Sets up what the tests need and runs them all, on SQLite, on PostgreSQL and in a real browser.
# The last line reads `N passed, N failed, N skipped`; the exit code is 0 only when something ran and nothing failed.
#
#   bash deploy/dev/test.sh              every test project
#   bash deploy/dev/test.sh Core         the test projects with "Core" in their name
#   bash deploy/dev/test.sh --no-build   with what is built already
#
#   SHOPFLUIDS_TEST_POSTGRES=container           PostgreSQL from a container (Testcontainers) in place of a private server
#   SHOPFLUIDS_TEST_POSTGRES_IMAGE               its image, postgres:17 if not set
#   SHOPFLUIDS_TEST_POSTGRES_CONNECTION          a server of your own: a connection that may create databases
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1
source deploy/dev/packages.sh
source deploy/dev/postgres.sh

configuration=Debug
minutes_per_project=25
results=artifacts/test-results
passed=0 failed=0 skipped=0
build=yes filter=
problems=()

# What failed stands far up in the output: once more, right before the counts.
print_failures() {
  local report
  for report in "$results"/*.xml; do
    if [ -s "$report" ]; then
      awk 'BEGIN { RS = "<test " } /result="Fail"/ { print "FAILED " substr($0, 1, 3000) }' "$report" |
        sed -e 's/<!\[CDATA\[//g; s/]]>//g; s/<[^>]*>/ /g; s/&quot;/"/g; s/&lt;/</g; s/&gt;/>/g; s/&#xA;/ /g; s/&amp;/\&/g'
    fi
  done
}

finish() { # exit code
  local problem
  if [ "$failed" -gt 0 ]; then print_failures; fi
  for problem in "${problems[@]}"; do echo "PROBLEM: $problem"; done
  echo "$passed passed, $failed failed, $skipped skipped"
  exit "$1"
}
stop_with() { problems+=("$1"); finish 1; }

for argument in "$@"; do
  case $argument in
    --no-build) build=no ;;
    -*) echo "unknown option $argument" >&2; exit 2 ;;
    *) filter=$argument ;;
  esac
done

packages=(fonts-liberation poppler-utils procps)
private_server=no
if [ "${SHOPFLUIDS_TEST_POSTGRES:-}" != container ] && [ -z "${SHOPFLUIDS_TEST_POSTGRES_CONNECTION:-}" ]; then
  private_server=yes
  packages+=(postgresql)
fi
# The browser's shell for tests is lighter; where there is none, the whole browser does.
packages_install chromium-headless-shell || packages_install chromium || stop_with "no browser could be installed"
packages_install "${packages[@]}" || stop_with "what the tests need could not be installed"

if [ $build = yes ]; then
  dotnet restore ShopFluids.sln --locked-mode --verbosity quiet || stop_with "the packages could not be restored from the lock files"
  dotnet build ShopFluids.sln --configuration $configuration --no-restore --nologo --verbosity quiet || stop_with "the solution does not build"
fi

if [ "${SHOPFLUIDS_TEST_POSTGRES:-}" = container ]; then
  # Each test process removes its own container, so the library's reaper, one more image to fetch, is not needed.
  export TESTCONTAINERS_RYUK_DISABLED=${TESTCONTAINERS_RYUK_DISABLED:-true}
  # Debian 12's docker.io speaks 1.41, the library asks for 1.44 unless told.
  docker_version=$(docker version --format '{{.Server.APIVersion}}') || stop_with "no Docker daemon answers"
  if [ "$(printf '%s\n' 1.44 "$docker_version" | sort -V | head -n 1)" != 1.44 ]; then export DOCKER_API_VERSION=$docker_version; fi
fi

# A test runs most code a few times only: to count how it is used, for optimising it, costs a third more than it gives back.
export DOTNET_TieredPGO=0

trap postgres_stop EXIT
trap 'exit 130' INT TERM HUP
if [ $private_server = yes ]; then
  postgres_start || stop_with "the private PostgreSQL server did not start"
  export SHOPFLUIDS_TEST_POSTGRES_CONNECTION=$postgres_connection
fi

count() { # attribute, report: the number in the report's <assembly> element
  grep -oE '<assembly [^>]*' "$2" | head -n 1 | grep -oE " $1=\"[0-9]+\"" | tr -dc '0-9'
}

run_project() { # name
  local name=$1 program=tests/$1/bin/$configuration/net10.0/$1 report=$results/$1.xml started=$SECONDS code=0
  if [ ! -x "$program" ]; then failed=$((failed + 1)); problems+=("$name is not built: no $program"); return; fi
  timeout --foreground --kill-after=10 ${minutes_per_project}m "$program" -noLogo -noColor -noAutoReporters -result-xml "$report" </dev/null || code=$?

  local project_passed='' project_failed='' project_errors='' project_skipped=''
  if [ -s "$report" ]; then
    project_passed=$(count passed "$report") project_failed=$(count failed "$report")
    project_errors=$(count errors "$report") project_skipped=$(count skipped "$report")
  fi
  if [ -z "$project_passed" ]; then
    failed=$((failed + 1))
    problems+=("$name ended without a report (exit code $code$([ $code != 124 ] || echo ", stopped after $minutes_per_project minutes"))")
    return
  fi
  project_failed=$((project_failed + ${project_errors:-0}))
  passed=$((passed + project_passed)) failed=$((failed + project_failed)) skipped=$((skipped + project_skipped))
  echo "-- $name: $project_passed passed, $project_failed failed, $project_skipped skipped in $((SECONDS - started)) s"
  if [ $((project_passed + project_failed)) = 0 ]; then
    failed=$((failed + 1)); problems+=("$name ran no test")
  elif [ $code != 0 ] && [ $project_failed = 0 ]; then
    failed=$((failed + 1)); problems+=("$name ended with exit code $code though no test failed")
  fi
}

rm -rf "$results" && mkdir -p "$results"
for project in tests/*.Tests/; do
  name=$(basename "$project")
  if [ -z "$filter" ] || [[ $name == *"$filter"* ]]; then run_project "$name"; fi
done

if [ $((passed + failed)) = 0 ]; then stop_with "no test ran"; fi
finish $((failed > 0))
