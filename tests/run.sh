#!/usr/bin/env bash
# Runs every test: builds, starts a throw-away PostgreSQL, finds a browser, sums the results.
# Installs PostgreSQL, Chromium and the reference library of tests/Catalogue.Reference.Tests where they are missing and apt-get can be used;
# elsewhere it says what to install.
set -uo pipefail
cd "$(dirname "$0")/.."

install_missing() {
  local wanted=()
  compgen -G '/usr/lib/postgresql/*/bin/postgres' >/dev/null || command -v postgres >/dev/null || wanted+=(postgresql)
  command -v chromium >/dev/null || command -v google-chrome >/dev/null || wanted+=(chromium)
  command -v g++ >/dev/null || wanted+=(g++)
  [ -d /usr/include/CGAL ] || wanted+=(libcgal-dev)
  [ -d /usr/include/eigen3 ] || wanted+=(libeigen3-dev)
  [ ${#wanted[@]} -eq 0 ] && return 0
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    mkdir -p /etc/postgresql-common
    [ -f /etc/postgresql-common/createcluster.conf ] || echo 'create_main_cluster = false' > /etc/postgresql-common/createcluster.conf
    apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "${wanted[@]}" >/dev/null
  else
    echo "Please install: ${wanted[*]} (the tests that need them fail or are skipped without)." >&2
  fi
}

as_postgres() {
  if [ "$(id -u)" = 0 ]; then su postgres -c "$1"; else bash -c "$1"; fi
}

start_postgres() {
  local port
  bin=$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort -V | tail -1)
  [ -n "$bin" ] || bin=$(dirname "$(command -v postgres)") || return 1
  database=$(mktemp -d)
  [ "$(id -u)" = 0 ] && chown postgres "$database"
  port=$((20000 + RANDOM % 20000))
  as_postgres "'$bin/initdb' -D '$database/data' -A trust -U catalogue -E UTF8 --locale=C" >/dev/null || return 1
  as_postgres "'$bin/pg_ctl' -D '$database/data' -w -l '$database/log' -o '-p $port -k $database -c listen_addresses=127.0.0.1 -c fsync=off -c synchronous_commit=off -c full_page_writes=off -c max_connections=200' start" >/dev/null || return 1
  export CATALOGUE_TEST_POSTGRES="Host=127.0.0.1;Port=$port;Username=catalogue;Database=postgres"
  stop_postgres() {
    as_postgres "'$bin/pg_ctl' -D '$database/data' -m immediate stop" >/dev/null 2>&1
    rm -rf "$database"
  }
  trap stop_postgres EXIT
}

sum_results() {
  local passed=0 failed=0 skipped=0 file counters
  for file in out/tests/*.trx; do
    [ -f "$file" ] || continue
    counters=$(grep -o '<Counters [^>]*>' "$file" | head -1)
    number() { sed -n "s/.* $1=\"\([0-9]*\)\".*/\1/p" <<<"$counters"; }
    passed=$((passed + $(number passed)))
    failed=$((failed + $(number failed) + $(number error)))
    skipped=$((skipped + $(number notExecuted)))
  done
  printf '\n%s passed, %s failed, %s skipped\n' "$passed" "$failed" "$skipped"
}

install_missing
rm -rf out/tests
# One compiler for all projects, whatever the environment says: less than half the time. It is stopped when it has done its work.
dotnet build Catalogue.sln -c Release -v quiet --nologo -p:UseSharedCompilation=true || { echo '0 passed, 1 failed, 0 skipped'; exit 1; }
dotnet build-server shutdown --vbcscompiler >/dev/null 2>&1
start_postgres || { echo 'PostgreSQL could not be started.' >&2; echo '0 passed, 1 failed, 0 skipped'; exit 1; }
# Every suite starts cold and ends soon: counting what runs often, to compile it better once more, does not pay here.
export DOTNET_TieredPGO=0
dotnet test --solution Catalogue.sln -c Release --no-build --results-directory out/tests --report-xunit-trx --max-parallel-test-modules 1 "$@"
status=$?
sum_results
exit $status
