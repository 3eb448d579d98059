# Halfsplit: the targets CI runs are the ones listed here, and no others.
# "make" alone lists them.

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
.DEFAULT_GOAL := help
MAKEFLAGS += --no-print-directory

ADDR ?= :8420
GO   ?= go
GOROOT := $(shell $(GO) env GOROOT)
JSWASM = GOOS=js GOARCH=wasm
# Inlining everywhere costs a tenth of the download and pays only where figures are
# computed. The collector of before Go 1.26 is as fast with one thread and takes 10 kB
# less; a Go that no longer has it builds with its own.
INLINED = halfsplit/core/circuit halfsplit/core/sim math cmp slices
OLDGC  := $(shell GOEXPERIMENT=nogreenteagc $(GO) version >/dev/null 2>&1 && echo GOEXPERIMENT=nogreenteagc)
WASMGO = $(OLDGC) $(JSWASM) $(GO)
WASMFLAGS = -trimpath -gcflags=all=-l $(INLINED:%=-gcflags=%=) -ldflags='-s -w -X main.version=$(VERSION)'

# Page and core must come from the same sources; each is told their digest and
# they compare at start.
CORE_SOURCES := $(sort $(shell find core wasm scenarios -name '*.go' -o -name '*.json' 2>/dev/null))
VERSION := $(shell cat $(CORE_SOURCES) | sha256sum | cut -c1-12)

TOOLS = honnef.co/go/tools/cmd/staticcheck golang.org/x/tools/cmd/deadcode

# core without its hosts: what must be pure.
PURE = $(shell $(GO) list ./core/... | grep -vE '/(cmd|internal)(/|$$)')

help: ## list the targets
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sort | awk -F ':.*## ' '{printf "  %-12s %s\n", $$1, $$2}'

build: bin/halfsplit ## build everything; the program is bin/halfsplit

run: build ## build everything, serve the page, print its address
	bin/halfsplit serve --addr $(ADDR)

test: check test-go test-wasm test-web size vectors ## everything that CI runs

# ---- building ----

.PHONY: FORCE
bin/halfsplit: web/dist/index.html FORCE
	$(GO) build -trimpath -o $@ ./core/cmd/halfsplit

web/node_modules/.package-lock.json: web/package.json web/package-lock.json
	cd web && npm ci --no-audit --no-fund --loglevel=error
	@touch $@

web/gen/wasm_exec.js: $(GOROOT)/lib/wasm/wasm_exec.js
	@mkdir -p $(@D)
	cp $< $@

# Two modules of one program: core answers at the open panel and is loaded first,
# workshop has drawing, records, sharing and drills as well.
web/gen/core.wasm web/gen/workshop.wasm: $(CORE_SOURCES) go.mod go.sum
	@mkdir -p $(@D)
	$(WASMGO) build $(WASMFLAGS) $(if $(filter %/core.wasm,$@),-tags=field) -o $@ ./wasm/core

GEN = web/gen/wasm_exec.js web/gen/core.wasm web/gen/workshop.wasm
PAGE_SOURCES := $(shell find web/src web/public -type f -not -name '*.test.ts' 2>/dev/null) core/words/page.en.json

web/dist/index.html: web/node_modules/.package-lock.json $(GEN) $(PAGE_SOURCES) web/index.html web/vite.config.ts web/tools/compress.ts
	cd web && HALFSPLIT_VERSION=$(VERSION) npx vite build --logLevel warn && npx tsx tools/compress.ts

web/gen/api.schema.json: $(CORE_SOURCES)
	@mkdir -p $(@D)
	$(GO) run ./core/internal/schema > $@

types: web/node_modules/.package-lock.json web/gen/api.schema.json ## write the page's types from the Go types
	cd web && npx tsx tools/types.ts

wasm: $(GEN) ## build the core for the browser
web: web/dist/index.html ## build the page, compressed

# ---- tests ----

test-go: web/dist/index.html ngspice ## Go tests
	$(GO) test $$($(GO) list ./... | grep -v /core/internal/layers)

test-wasm: ## the core's tests again, as WebAssembly, without the long runs
	$(JSWASM) $(GO) test -exec="$(GOROOT)/lib/wasm/go_js_wasm_exec" -short $(PURE) ./wasm/bridge

test-web: bin/halfsplit browser ## the page's tests, in a phone-sized browser
	cd web && node --import tsx --test $$(find src -name '*.test.ts' | sort)
	cd web && node --import tsx --test --test-concurrency=2 --test-timeout=600000 e2e/*.test.ts

vectors: ## the worked cases in testdata/vectors
	$(GO) test -count=1 -run "Vector|Phenomena" ./core/...

golden: ## rewrite the golden files; read the diff before committing it
	$(GO) test $$(grep -rl --include='*_test.go' 'flag.Bool("update"' core | xargs -n1 dirname | sort -u | sed 's,^,./,') -run Golden -update

# SEED=N for panels that have been measured before.
bench: build ngspice browser ## the figures of testdata/bench.md: against ngspice, by size, in the browser
	$(GO) build -o bin/speed ./core/internal/speed
	bin/speed --seed $(or $(SEED),0) --out testdata/bench.md

soak: ngspice mutate bin/halfsplit browser ## the long runs: ngspice, panels at rest, 200 kills of the browser, fuzzing; figures in testdata/soak.md
	cd web && CRASHES=200 SEED=$(or $(SEED),1) node --import tsx --test e2e/crash.test.ts
	$(GO) test -count=1 -v -timeout 2h ./core/internal/spicetest -panels 300 -pairs 10000
	@for p in $$($(GO) list ./core/... ./wasm/bridge); do \
	  for f in $$($(GO) test -list '^Fuzz' $$p | grep '^Fuzz' || true); do \
	    $(GO) test -run '^$$' -fuzz "^$$f$$" -fuzztime 100000x $$p; done; done

mutate: ngspice ## break the physics in one place after another and see which tests notice
	$(GO) run ./core/internal/mutate

shots: bin/halfsplit browser ## every screen as a picture, in web/shots
	cd web && npx tsx e2e/shots.ts

size: web/dist/index.html ## what a phone downloads, against its limits
	cd web && npx tsx tools/size.ts

# ---- checks ----

check: check-go check-layers check-web ## formatting, lint, unused code, layers

# "go tool" would build the tools for the browser along with what they check.
bin/tools/%: go.mod go.sum
	$(GO) build -o $@ $(filter %/$*,$(TOOLS))

check-go: web/dist/index.html bin/tools/staticcheck bin/tools/deadcode
	@out=$$(gofmt -l core wasm web/*.go $(wildcard scenarios)); [ -z "$$out" ] || { echo "gofmt: $$out"; exit 1; }
	$(GO) vet ./...
	$(JSWASM) $(GO) vet ./wasm/...
	$(JSWASM) $(GO) vet -tags=field ./wasm/core ./core/api
	bin/tools/staticcheck ./...
	$(JSWASM) bin/tools/staticcheck ./wasm/...
	@bin/tools/deadcode -test ./... | sort > bin/tools/dead.command
	@$(JSWASM) bin/tools/deadcode -test $(PURE) ./wasm/... | sort > bin/tools/dead.page
	@out=$$(comm -12 bin/tools/dead.command bin/tools/dead.page); \
	  [ -z "$$out" ] || { echo "reached by neither the command nor the page:"; echo "$$out"; exit 1; }

check-layers: ## who may import whom, and what the core must not do
	$(GO) test -count=1 ./core/internal/layers

check-web: web/node_modules/.package-lock.json web/gen/api.schema.json $(GEN)
	cd web && npx tsx tools/types.ts --check
	cd web && npx tsc --noEmit
	cd web && npx knip
	@! grep -rnE 'innerHTML|outerHTML|insertAdjacentHTML|dangerouslySetInnerHTML|document\.write|\beval\(|new Function|style="' web/src web/index.html || \
	  { echo 'text becomes text, never markup or code: see DEVELOPERS.md, Decisions'; exit 1; }

# ---- what the tests need ----

# What an independent simulator says is compared with what the core says.
ngspice:
	@command -v ngspice >/dev/null || { \
	  [ "$$(id -u)" = 0 ] || { echo 'ngspice is needed: apt-get install ngspice'; exit 1; }; \
	  apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq ngspice; }

browser:
	@command -v $${CHROMIUM:-chromium} >/dev/null || { \
	  [ "$$(id -u)" = 0 ] || { echo 'chromium is needed: apt-get install chromium, or set CHROMIUM to its path'; exit 1; }; \
	  apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq chromium; }

.PHONY: help build run test types wasm web test-go test-wasm test-web vectors golden bench soak mutate shots size \
        check check-go check-layers check-web browser ngspice
