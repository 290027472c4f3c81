# Ubuntu carries .NET 10 in its own archive (from memory; no container engine was at hand to build this).
FROM ubuntu:24.04 AS build
RUN apt-get update && apt-get install -y --no-install-recommends ca-certificates dotnet-sdk-10.0 nodejs npm && rm -rf /var/lib/apt/lists/*
WORKDIR /source
COPY . .
# Compiled ahead of time: the first page and the first check of a process do not wait for the compiler.
RUN dotnet publish src/Catalogue.Web -c Release --use-current-runtime --self-contained false -p:PublishReadyToRun=true -o /app

FROM ubuntu:24.04
RUN apt-get update && apt-get install -y --no-install-recommends ca-certificates aspnetcore-runtime-10.0 && rm -rf /var/lib/apt/lists/* \
 && mkdir /data && chown ubuntu:ubuntu /data
WORKDIR /app
COPY --from=build /app .
ENV Catalogue__DataFolder=/data
VOLUME /data
EXPOSE 8080
USER ubuntu
ENTRYPOINT ["dotnet", "Catalogue.Web.dll", "--urls", "http://0.0.0.0:8080"]
