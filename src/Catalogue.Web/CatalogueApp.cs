using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Conventions;
using Catalogue.Web.Features.Downloads;
using Catalogue.Web.Features.Drafts;
using Catalogue.Web.Features.Figures;
using Catalogue.Web.Features.Health;
using Catalogue.Web.Features.Inspections;
using Catalogue.Web.Features.Languages;
using Catalogue.Web.Features.Matrix;
using Catalogue.Web.Features.Orientations;
using Catalogue.Web.Features.Photos;
using Catalogue.Web.Features.Pictures;
using Catalogue.Web.Features.Printers;
using Catalogue.Web.Features.Processes;
using Catalogue.Web.Features.Ranges;
using Catalogue.Web.Features.Reports;
using Catalogue.Web.Features.Scaling;
using Catalogue.Web.Features.Scripts;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Features.Viewer;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;

namespace Catalogue.Web;

/// <summary>Wires the web application; holds no logic.</summary>
internal static class CatalogueApp
{
    public static WebApplication Build(string[] args, Action<WebApplicationBuilder>? configure = null)
    {
        Model.Languages.Language.Include(typeof(CatalogueApp).Assembly);
        Model.Languages.Language.Include(typeof(Data.CatalogueDb).Assembly);
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            Args = args,
            ContentRootPath = AppContext.BaseDirectory,
            WebRootPath = WebRoot.Find(),
            ApplicationName = typeof(CatalogueApp).Assembly.GetName().Name, // Where the pages are, also when a test is what was started.
        });
        if (string.IsNullOrEmpty(builder.Configuration["urls"])) builder.WebHost.UseUrls(Commands.ServeCommand.DefaultUrl);
        configure?.Invoke(builder);
        var options = builder.AddStorage();
        builder.AddAccounts();
        builder.AddInspection(options);
        builder.Services.AddProblemDetails();
        builder.Services.AddExceptionHandler<Problems>();
        builder.Services.AddRateLimits(options);
        builder.AddApi();
        builder.AddPages(options);
        builder.AddDrafts(options);
        builder.AddVisitorInspections(options);
        builder.Services.AddScoped<LimitChange>();
        builder.Services.AddScoped<RateChange>();
        builder.Services.AddSingleton(services => new PictureDesk(services.GetRequiredService<IBlobStore>(), options));
        builder.Services.AddSingleton(services => new OrientationDesk(services.GetRequiredService<IBlobStore>(), options, services.GetRequiredService<InspectionTurns>()));
        builder.AddPhotos(options);
        builder.AddViewer(options);
        builder.WebHost.ConfigureKestrel(static kestrel => kestrel.Limits.MaxRequestBodySize = ApiSetup.MaxBodyBytes); // Addresses that take meshes say so.

        var app = builder.Build();
        app.UsePageFrame(options);
        if (options.PathBase.Length > 0) app.UsePathBase(options.PathBase);
        app.UseReaderLanguage();
        app.UseErrorPages();
        app.UseStaticFiles(PagesSetup.Files);
        app.UseRouting();
        app.UseRateLimiter();
        app.UseAuthentication();
        app.UseAuthorization();
        app.MapOpenApi("/openapi/{documentName}.json");
        app.MapHealth();
        app.MapRangeApi();
        app.MapFigureApi();
        app.MapMatrixApi();
        app.MapProcessApi();
        app.MapRuleApi();
        app.MapPresetApi();
        app.MapReportApi();
        app.MapDrafts();
        app.MapDownloads();
        app.MapPictures();
        app.MapPhotos();
        app.MapConventions();
        app.MapEmbedding();
        app.MapOrientations();
        app.MapViewer();
        app.MapInspectionApi();
        app.MapLimitApi();
        app.MapRateApi();
        app.MapScaleApi();
        app.MapScriptTexts();
        app.MapRazorPages();
        return app;
    }
}
