#!/usr/bin/env bash
# Fetches the packages in exactly the versions of the lock files. One entry can follow the SDK and not us: the browser's part of Blazor
# is a package in the version of the SDK's own runtime. With another patch of the SDK that entry alone may differ, and only then
# the lock files are written anew; every other difference is an error.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

if output=$(dotnet restore ShopFluids.sln --locked-mode --verbosity quiet 2>&1); then exit 0; fi

version_after() { tr -d ' \n' | grep -oE "$1" | grep -oE '[0-9]+\.[0-9]+\.[0-9]+' | head -n 1; }
locked=$(version_after 'App\.Internal\.Assets":\{"type":"[A-Za-z]+","requested":"[^"]*"' <src/ShopFluids.Web/packages.lock.json || true)
asked=$(dotnet msbuild src/ShopFluids.Web -getItem:KnownAspNetCorePack | version_after '"AspNetCorePackVersion":"[^"]*"' || true)
if [ -z "$locked" ] || [ "$locked" = "$asked" ]; then
  echo "$output" >&2
  exit 1
fi
echo "This SDK asks for Blazor's assets $asked, the lock files hold $locked: restoring without the lock."
dotnet restore ShopFluids.sln --verbosity quiet
